// SPDX-License-Identifier: Apache-2.0
// The entries of a job as a line: what belongs together is one step, so that a gate of forty items does not hide the fog.
import type { EntryRow } from "./shapes";

export interface Step {
  kind: string;
  entries: EntryRow[];
  /** Time since the step before, from when things happened. */
  afterMs: number | null;
}

/** Kinds of which many follow each other. */
const gathered = new Set(["requirement-met", "return-fogged", "reading-taken"]);

export function stepsOf(entries: EntryRow[]): Step[] {
  const steps: Step[] = [];
  let before: EntryRow | undefined;
  for (const entry of entries) {
    const last = steps[steps.length - 1];
    if (last && last.kind === entry.kind && gathered.has(entry.kind)) last.entries.push(entry);
    else steps.push({ kind: entry.kind, entries: [entry], afterMs: before ? entry.happened_ms - before.happened_ms : null });
    before = entry;
  }
  return steps;
}
