// SPDX-License-Identifier: Apache-2.0
// The device's own entries until the office has them, in the order in which they were made. An entry is here, durably,
// before anybody is told that it is done.
import { Observable } from "../observable";
import { openDatabase, type OutboxRow } from "./database";
import type { OwnEntry } from "./engine";

export interface OutboxCount {
  waiting: number;
  refused: number;
}

export const outboxCount = new Observable<OutboxCount>({ waiting: 0, refused: 0 });

/** Those that are there already stay as they are. `endsFogOf`: the job whose timer goes with it. */
export async function addToOutbox(entries: OwnEntry[], endsFogOf?: string): Promise<void> {
  const db = await openDatabase();
  const change = db.transaction(["outbox", "fog"], "readwrite", { durability: "strict" });
  const outbox = change.objectStore("outbox");
  try {
    for (const entry of entries) if (!(await outbox.index("id").getKey(entry.id))) await outbox.add({ entry, state: "waiting" });
    if (endsFogOf) await change.objectStore("fog").delete(endsFogOf);
    await change.done;
  } catch (fault) {
    // All of them or none.
    change.done.catch(() => undefined);
    try {
      change.abort();
    } catch {
      // It has ended by itself.
    }
    throw fault;
  }
  await countOutbox();
}

export async function outboxRows(): Promise<OutboxRow[]> {
  return (await openDatabase()).getAll("outbox");
}

export async function countOutbox(): Promise<OutboxCount> {
  const rows = await outboxRows();
  const of = (state: OutboxRow["state"]) => rows.filter((row) => row.state === state).length;
  const count = { waiting: of("waiting"), refused: of("refused") };
  outboxCount.set(count);
  return count;
}

/** What the office answered to entries; those that another tab took away meanwhile are left alone. */
export async function noteReplies(replies: Map<string, Pick<OutboxRow, "state" | "reply">>): Promise<void> {
  const db = await openDatabase();
  const change = db.transaction("outbox", "readwrite", { durability: "strict" });
  for (const [id, reply] of replies) {
    const row = await change.store.index("id").get(id);
    if (row) await change.store.put({ ...row, ...reply });
  }
  await change.done;
  await countOutbox();
}

/** Somebody has read why the office refused it. */
export async function forgetRefused(id: string): Promise<void> {
  const db = await openDatabase();
  const row = await db.getFromIndex("outbox", "id", id);
  if (row?.n !== undefined && row.state === "refused") await db.delete("outbox", row.n);
  await countOutbox();
}
