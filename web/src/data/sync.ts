// SPDX-License-Identifier: Apache-2.0
// Sends what waits and fetches what is new. One tab at a time; a batch that is cut off is sent again whole, and the
// office knows what it has already.
import type { Synced } from "../api/generated";
import { NoConnection, Refused } from "../api/http";
import { Observable } from "../observable";
import { clock } from "./clock";
import type { OutboxRow } from "./database";
import type { BookEntry, Snapshot } from "./engine";
import type { LocalDesk } from "./local_desk";
import { countOutbox, noteReplies, outboxRows } from "./outbox";
import { askOffice, session } from "./session";
import { ifFree, tellChange } from "./tabs";

export interface SyncState {
  /** How the last round ended: one that is under way changes nothing under anybody's fingers. */
  now: "resting" | "no-signal" | "signed-out" | "fault";
  /** When the office last answered; 0: not since the page was opened. */
  reached_ms: number;
  words: string;
}

export const syncState = new Observable<SyncState>({ now: "resting", reached_ms: 0, words: "" });

/** The newest entry that was written through the office from here. */
export const throughOffice = { newestSeq: -1 };

const mostAtOnce = 200;

async function office(method: string, path: string, more: { body?: unknown; query?: Record<string, string> } = {}): Promise<unknown> {
  const answer = await askOffice({ method, path, ...more });
  if (answer.status >= 400) throw new Refused(answer.status, answer.body as object);
  return answer.body;
}

/** What whoever is signed in made and the office does not have; entries of somebody else wait for them. */
export function toSend(rows: OutboxRow[], handle: string): OutboxRow[] {
  return rows.filter((row) => row.state === "waiting" && row.entry.actor === handle).slice(0, mostAtOnce);
}

export function replyOf(result: Synced["results"][number]): Pick<OutboxRow, "state" | "reply"> {
  const told = result as { code?: string; detail?: string; hint?: string };
  if (result.result === "refused")
    return { state: "refused", reply: { code: told.code ?? "", detail: told.detail ?? "", hint: told.hint ?? "" } };
  return { state: "sent", reply: { departures: (result.departures ?? []).map(({ rule, what }) => ({ rule, what })) } };
}

async function sendWaiting(desk: LocalDesk, handle: string): Promise<boolean> {
  let any = false;
  for (;;) {
    const rows = toSend(await outboxRows(), handle);
    const entries = rows.map(({ entry: { actor: _actor, device: _device, ...sent } }) => sent);
    // An empty batch asks what the office's clock says.
    const synced = (await office("POST", "/api/v1/sync", { body: { device_now_ms: clock.now(), entries } })) as Synced;
    clock.compared(synced.clock_off_ms);
    if (rows.length === 0) return any;
    const replies = new Map(synced.results.map((result) => [result.id, replyOf(result)] as const));
    await noteReplies(replies);
    for (const [id, reply] of replies) if (reply.state === "refused") desk.drop(id);
    // What the documents hold already comes back no more.
    const known = synced.results.filter(({ result, seq }) => result === "already-there" && seq !== undefined && seq < desk.size);
    for (const { id } of known) await desk.hasAlready(id);
    any = true;
  }
}

type Fetched = "nothing" | "new" | "another book";

/** The last entry that is here comes along: by it a book that was restored from a backup is told from the one before. */
async function fetchNew(desk: LocalDesk): Promise<Fetched> {
  let fetched: Fetched = "nothing";
  for (let from = Math.max(0, desk.size - 1); ; from = desk.size) {
    const page = (await office("GET", "/api/v1/book/entries", { query: { from: String(from), limit: "500" } })) as { items: BookEntry[]; size: number };
    if (!desk.goesOn(page)) return "another book";
    if (!(await desk.take(page.items))) return fetched;
    fetched = "new";
    if (desk.size >= page.size) return fetched;
  }
}

/** The documents to begin with. */
async function fetchDocuments(desk: LocalDesk): Promise<void> {
  await desk.begin((await office("GET", "/api/v1/documents")) as Snapshot);
}

async function round(desk: LocalDesk, handle: string): Promise<void> {
  // What waits or came back goes first: laid on top of new documents it would count twice until it is sent.
  if (desk.stands && !desk.isCurrent) await sendWaiting(desk, handle).then(() => fetchNew(desk));
  if (!desk.stands || !desk.isCurrent) await fetchDocuments(desk);
  const sent = await sendWaiting(desk, handle);
  const fetched = await fetchNew(desk);
  if (fetched === "another book") await beginAnew(desk, handle);
  if (sent || fetched !== "nothing") tellChange();
}

/** By a history that is no more nothing can be decided. What waits here stays, and is sent to the book that there is. */
async function beginAnew(desk: LocalDesk, handle: string): Promise<void> {
  throughOffice.newestSeq = -1;
  await fetchDocuments(desk);
  await sendWaiting(desk, handle);
  await fetchNew(desk);
}

function told(fault: unknown): SyncState {
  const { reached_ms } = syncState.value;
  if (fault instanceof NoConnection) return { now: "no-signal", reached_ms, words: "" };
  if (fault instanceof Refused && fault.status === 401) return { now: "signed-out", reached_ms, words: fault.message };
  return { now: "fault", reached_ms, words: fault instanceof Error ? fault.message : String(fault) };
}

/** One round; whether the office was reached. */
export async function syncOnce(desk: LocalDesk): Promise<boolean> {
  const done = await ifFree("sync", async () => {
    const { who, state } = session.value;
    if (!who || state === "out") return false;
    try {
      await round(desk, who.handle);
      syncState.set({ now: "resting", reached_ms: clock.now(), words: "" });
      return true;
    } catch (fault) {
      syncState.set(told(fault));
      return false;
    } finally {
      await countOutbox();
    }
  });
  return done ?? false;
}
