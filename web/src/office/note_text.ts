// SPDX-License-Identifier: Apache-2.0
// A checkpoint as it is written (C2SP signed-note and tlog-checkpoint; docs/record-format.md): origin, number of entries,
// root, and a line for each signature. Read for display; whether a signature holds, the verifier says.

export interface CheckpointNote {
  origin: string;
  size: number;
  root: string;
  signers: string[];
}

export function readCheckpoint(text: string): CheckpointNote | null {
  const [body, signatures] = text.trim().split("\n\n");
  const [origin, size, root] = (body ?? "").split("\n");
  if (!origin || !size || !/^\d+$/.test(size) || !root) return null;
  const signers = (signatures ?? "").split("\n").flatMap((line) => /^— (\S+) \S+$/.exec(line.trim())?.[1] ?? []);
  return { origin, size: Number(size), root, signers };
}

export type Compared = "same" | "other-book" | "changed" | "older" | "newer";

/** What two checkpoints say of each other by themselves. An older one takes a proof that the book goes on from it. */
export function compareCheckpoints(now: CheckpointNote, held: CheckpointNote): Compared {
  if (now.origin !== held.origin) return "other-book";
  if (now.size === held.size) return now.root === held.root ? "same" : "changed";
  return held.size < now.size ? "older" : "newer";
}
