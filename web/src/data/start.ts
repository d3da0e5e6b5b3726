// SPDX-License-Identifier: Apache-2.0
// Puts the data layer together and keeps it going.
import { NoConnection } from "../api/http";
import { clock } from "./clock";
import { askToKeep } from "./database";
import { hasEngine, loadEngine } from "./engine";
import { LocalDesk } from "./local_desk";
import { Observable } from "../observable";
import { countOutbox, outboxCount } from "./outbox";
import { checkSession, session } from "./session";
import { syncOnce, syncState } from "./sync";
import { changes, onOtherTab } from "./tabs";

/** The desk of this device, once it is there. */
export const desk = new Observable<LocalDesk | null>(null);

/** Why this device has no desk of its own, although these pages bring one. */
export const deskFault = new Observable("");

const restMs = 30_000;
const longestRestMs = 5 * 60_000;
let failures = 0;
let timer: ReturnType<typeof setTimeout> | undefined;

/** Now, and then at intervals that grow while the office cannot be reached. */
export async function syncSoon(): Promise<void> {
  clearTimeout(timer);
  const reached = await reach();
  failures = reached ? 0 : failures + 1;
  timer = setTimeout(() => void syncSoon(), Math.min(longestRestMs, restMs * 2 ** Math.max(0, failures - 1)));
}

async function reach(): Promise<boolean> {
  if (desk.value) return syncOnce(desk.value);
  try {
    await checkSession();
    const reached = session.value.state !== "unreached";
    syncState.set({ now: reached ? "resting" : "no-signal", reached_ms: reached ? clock.now() : syncState.value.reached_ms, words: "" });
    if (session.value.state === "in") changes.set(changes.value + 1);
    return reached;
  } catch (fault) {
    if (!(fault instanceof NoConnection)) console.warn(fault);
    return false;
  }
}

async function openDesk(): Promise<void> {
  if (!hasEngine) return;
  try {
    const local = new LocalDesk(await loadEngine());
    await local.open();
    onOtherTab(() => void local.catchUp());
    desk.set(local);
    changes.set(changes.value + 1);
  } catch (fault) {
    // The office still answers; the page says what is missing.
    deskFault.set(fault instanceof Error ? fault.message : String(fault));
  }
}

function watchWorld(): void {
  addEventListener("online", () => void syncSoon());
  document.addEventListener("visibilitychange", () => {
    clock.look();
    if (document.visibilityState === "visible") void syncSoon();
  });
  setInterval(() => clock.look(), 1_000);
  outboxCount.watch(({ waiting }) => waiting > 0 && syncState.value.now === "resting" && void syncSoon());
  // Whoever has just signed in wants to see the book, and sends what waited for them.
  session.watch(({ state }) => state === "in" && void syncSoon());
}

export async function startData(): Promise<void> {
  await Promise.all([checkSession(), openDesk(), countOutbox()]).catch((fault: unknown) => {
    syncState.set({ now: "fault", reached_ms: 0, words: fault instanceof Error ? fault.message : String(fault) });
  });
  void askToKeep();
  watchWorld();
  await syncSoon();
}
