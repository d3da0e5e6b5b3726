// SPDX-License-Identifier: Apache-2.0
// Puts the data layer together and keeps it going.
import { NoConnection } from "../api/http";
import { registerServiceWorker } from "../worker/register";
import { clock } from "./clock";
import { askToKeep } from "./database";
import { desk, openEngines } from "./engines";
import { countOutbox, outboxCount } from "./outbox";
import { checkSession, session } from "./session";
import { syncOnce, syncState } from "./sync";
import { changes } from "./tabs";

const restMs = 30_000;
const longestRestMs = 5 * 60_000;
/** What the office answered this lately is not asked for again. */
const freshMs = 10_000;
let failures = 0;
let timer: ReturnType<typeof setTimeout> | undefined;
let round: Promise<void> = Promise.resolve();
let next: Promise<void> | undefined;

/**
 * Now, and then at intervals that grow while the office cannot be reached. A round that runs already may have looked at
 * the outbox before the caller wrote: the caller gets the one after it.
 */
export function syncSoon(): Promise<void> {
  next ??= round.then(() => {
    next = undefined;
    return (round = runRound());
  });
  return next;
}

async function runRound(): Promise<void> {
  clearTimeout(timer);
  failures = (await reach()) ? 0 : failures + 1;
  timer = setTimeout(() => void syncSoon(), Math.min(longestRestMs, restMs * 2 ** Math.max(0, failures - 1)));
}

async function reach(): Promise<boolean> {
  if (desk.value) return syncOnce(desk.value);
  try {
    await checkSession();
    const { reached_ms } = syncState.value;
    const reached = session.value.state !== "unreached";
    syncState.set({ now: reached ? "resting" : "no-signal", reached_ms: reached ? clock.now() : reached_ms, words: "" });
    if (session.value.state === "in" && clock.now() - reached_ms > freshMs) changes.set(changes.value + 1);
    return reached;
  } catch (fault) {
    if (!(fault instanceof NoConnection)) console.warn(fault);
    return false;
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
  // Whoever has just signed in wants to see the book, and sends what waited for them; a new desk wants its documents.
  session.watch(({ state }) => state === "in" && void syncSoon());
  desk.watch((now) => now && void syncSoon());
}

export async function startData(): Promise<void> {
  // The worker keeps everything at hand; on a first visit that waits until a plan can be made.
  const engines = openEngines();
  void engines.all.then(registerServiceWorker);
  await Promise.all([checkSession(), engines.kept, countOutbox()]).catch((fault: unknown) => {
    syncState.set({ now: "fault", reached_ms: 0, words: fault instanceof Error ? fault.message : String(fault) });
  });
  void askToKeep();
  watchWorld();
  await syncSoon();
}
