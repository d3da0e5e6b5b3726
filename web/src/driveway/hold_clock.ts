// SPDX-License-Identifier: Apache-2.0
// What is left of a hold between two answers of the desk. Of the two clocks the one that has moved less counts, so the
// figure on the screen never runs ahead of the desk's own.
import type { Job } from "../api/generated";

export interface HoldAnswer {
  hold: NonNullable<Job["hold"]>;
  wall: number;
  running: number;
}

export interface HoldLeft {
  /** Of the part that runs: the floor first, then the rest. */
  left_ms: number;
  /** By the calendar, where it ends. */
  ends_ms: number;
  part: "floor" | "total";
}

export function holdLeft({ hold, wall, running }: HoldAnswer, now: { wall: number; running: number }): HoldLeft {
  const passed = Math.max(0, Math.min(now.wall - wall, now.running - running));
  const elapsed = hold.elapsed_ms + passed;
  const part = elapsed < hold.floor_ms ? "floor" : "total";
  const left_ms = Math.max(0, hold[part === "floor" ? "floor_ms" : "total_ms"] - elapsed);
  return { left_ms, ends_ms: now.wall + left_ms, part };
}
