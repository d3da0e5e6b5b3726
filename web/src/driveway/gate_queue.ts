// SPDX-License-Identifier: Apache-2.0
// Which items somebody is asked for now, in the order of the plan.
import type { Job } from "../api/generated";

export type Item = Job["items"][number];

export interface OpenItem {
  item: Item;
  /** Why the desk holds it for open. */
  why: string;
}

/** By the engine's names of them (src/gate/rule_names.cpp). */
const stagesOf: Record<string, string[]> = {
  planned: ["before mixing or filling", "before fogging"],
  cleared: ["before mixing or filling", "before fogging"],
  fogging: ["while fogging"],
  holding: ["while fogging", "before release"],
  stopped: ["before release"],
  released: ["while fogging", "before closing"],
};

export const whileFogging = "while fogging";
export const beforeRelease = "before release";
export const allStages = [...new Set(Object.values(stagesOf).flat())];

/** Whether the part of a hold runs in which nobody goes in, not even to open a window. */
export const nobodyIn = ({ hold }: Pick<Job, "hold">): boolean => hold !== undefined && hold.elapsed_ms < hold.floor_ms;

export function stagesNow(job: Pick<Job, "state" | "hold">): string[] {
  const stages = stagesOf[job.state] ?? [];
  return nobodyIn(job) ? stages.filter((stage) => stage !== beforeRelease) : stages;
}

/** Airing that the hold was reckoned with runs until the release. */
const whenOver = "aired-out-as-planned";

/** What somebody can answer now, answered or not. */
const askedNow = (job: Job, stages: string[]): Item[] =>
  job.items.filter((item) => stages.includes(item.stage ?? "") && !item.by_facts && (item.item !== whenOver || job.hold?.may_release !== false));

export function openItems(job: Job, stages = stagesNow(job)): OpenItem[] {
  const why = new Map(job.missing.map((one) => [one.requirement, one.why ?? ""] as const));
  return askedNow(job, stages).filter((item) => why.has(item.item)).map((item) => ({ item, why: why.get(item.item) ?? "" }));
}

export function countItems(job: Job, stages = stagesNow(job)): { open: number; all: number } {
  return { open: openItems(job, stages).length, all: askedNow(job, stages).length };
}
