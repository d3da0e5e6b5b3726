// SPDX-License-Identifier: Apache-2.0
// The entries of the book, read once and then only what is new. They never change, so what was read stays right, but for
// what has put an entry right since.
import { askOfficeFor } from "../data/ask";
import type { EntryRow } from "./shapes";

const pageSize = 1000;
const known: EntryRow[] = [];
let reading: Promise<EntryRow[]> | undefined;

async function readOn(): Promise<EntryRow[]> {
  for (;;) {
    const { items, next, size } = await askOfficeFor("listEntries", { query: { from: String(known.length), limit: String(pageSize) } });
    // An entry that the server cannot read is left out of the page; its place stays free, so that numbers hold.
    for (const entry of items) known[entry.seq] = entry;
    known.length = Math.max(known.length, next);
    if (next >= size) return known;
  }
}

/** By their numbers; asked by several views at once they are read once. */
export function allEntries(): Promise<EntryRow[]> {
  reading ??= readOn().finally(() => (reading = undefined));
  return reading;
}

export async function entryAt(seq: number): Promise<EntryRow | undefined> {
  const { items } = await askOfficeFor("listEntries", { query: { from: String(seq), limit: "1" } });
  return items.find((entry) => entry.seq === seq);
}

export const jobOf = (entry: EntryRow): string => (entry.body as { job?: string }).job ?? "";

export async function entriesOfJob(job: string): Promise<EntryRow[]> {
  return (await allEntries()).filter((entry) => entry && jobOf(entry) === job);
}
