// SPDX-License-Identifier: Apache-2.0
// What this device keeps: the book's documents, its own entries until the office has them, photos, fog that is being
// timed. One database for all tabs.
import { openDB, type DBSchema, type IDBPDatabase } from "idb";
import type { OwnEntry, Snapshot } from "./engine";

export interface OutboxRow {
  n?: number;
  entry: OwnEntry;
  /** waiting: not sent; sent: the office has it; refused: it will not have it (`reply` says why). */
  state: "waiting" | "sent" | "refused";
  reply?: { code?: string; detail?: string; hint?: string; departures?: { rule: string; what: string }[] };
}

export interface Photo {
  digest: string;
  picture: Blob;
  job: string;
  item: string;
  taken_ms: number;
}

/** As the engine has it, and by what the office's book is known again. */
export interface KeptBook extends Snapshot {
  /** Id of the last entry in the documents; not known before an entry was fetched. */
  last?: string | undefined;
  /** Another with each beginning: a book that was restored may be as long as the one before. */
  history?: string | undefined;
  /** Which engine began with them. */
  program?: string | undefined;
}

export interface FogRun {
  job: string;
  /** What is timed now, as src/driveway/fog_timer.ts keeps it. */
  timer: unknown;
}

interface Schema extends DBSchema {
  book: { key: string; value: KeptBook };
  outbox: { key: number; value: OutboxRow; indexes: { id: string } };
  photos: { key: string; value: Photo; indexes: { job: string } };
  fog: { key: string; value: FogRun };
  kept: { key: string; value: unknown };
}

export type Database = IDBPDatabase<Schema>;

const name = "fogwright";
let opened: Promise<Database> | undefined;

export function openDatabase(): Promise<Database> {
  opened ??= openDB<Schema>(name, 1, {
    upgrade(db) {
      db.createObjectStore("book");
      db.createObjectStore("outbox", { keyPath: "n", autoIncrement: true }).createIndex("id", "entry.id", { unique: true });
      db.createObjectStore("photos", { keyPath: "digest" }).createIndex("job", "job");
      db.createObjectStore("fog", { keyPath: "job" });
      db.createObjectStore("kept");
    },
    // A newer version in another tab must not wait for this one.
    blocking: (_now, _wanted, event) => (event.target as IDBDatabase).close(),
    terminated: () => (opened = undefined),
  });
  opened.catch(() => (opened = undefined));
  return opened;
}

/** Asks the browser not to throw it away when space runs short. */
export async function askToKeep(): Promise<void> {
  await navigator.storage?.persist?.().catch(() => false);
}
