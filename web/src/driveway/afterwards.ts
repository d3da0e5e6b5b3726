// SPDX-License-Identifier: Apache-2.0
// A job that was done without the tool, as it is being written down afterwards.
import type { Job, Operations } from "../api/generated";
import { withUnit } from "../settings/units";
import { beforeRelease, stagesNow, whileFogging, type Item } from "./gate_queue";
import { planOf } from "./shapes";

export interface Afterwards {
  /** As a date field gives them, at the job's place: 2026-03-04T14:05. */
  started: string;
  ended: string;
  released: string;
  /** Seconds by the name of a return, as typed. */
  seconds: Record<string, string>;
  used: string;
  /** By item. */
  answers: Record<string, string>;
  why: string;
}

export const emptyAfterwards: Afterwards = { started: "", ended: "", released: "", seconds: {}, used: "", answers: {}, why: "" };

/** The returns of a job by the names that the desk tells apart: with their system where there are several. */
export function returnNames(job: Job): string[] {
  const { systems } = planOf(job);
  return systems.flatMap(({ name, returns }) => returns.map((one) => (systems.length > 1 ? `${name}: ${one.name}` : one.name)));
}

/**
 * Items that somebody can still answer for: what facts decide is not asked, nor what can be met when the job is there. What
 * was met before is asked again: an answer of an earlier day may not count on the day of the fog.
 */
export function answerable(job: Job, draft: Afterwards): Item[] {
  const over = [...stagesNow({ state: "planned" }), whileFogging, ...(draft.released ? [beforeRelease] : [])];
  return job.items.filter((item) => !item.by_facts && over.includes(item.stage ?? ""));
}

/** Whether an item has an answer that stays where none is given now. */
export const isMetBefore = (job: Job, { item }: Item): boolean => item in job.met;

export const isTold = (draft: Afterwards): boolean => [draft.started, draft.ended, draft.why.trim()].every(Boolean);

const atSite = (typed: string) => typed.replace("T", " ");

/** What the desk is told. What was left empty is left out: an earlier answer stays, and without one it is a departure. */
export function recordOf(job: Job, draft: Afterwards, volumeUnit: string): Operations["recordJob"]["body"] {
  const returns = returnNames(job).flatMap((name) => {
    const seconds = draft.seconds[name]?.trim();
    return seconds ? [[name, withUnit(seconds, "s")]] : [];
  });
  const met = answerable(job, draft).flatMap(({ item }) => {
    const answer = draft.answers[item]?.trim();
    return answer ? [[item, answer]] : [];
  });
  return {
    started: atSite(draft.started), ended: atSite(draft.ended), why: draft.why.trim(), returns: Object.fromEntries(returns), met: Object.fromEntries(met),
    ...(draft.released ? { released: atSite(draft.released) } : {}),
    ...(draft.used.trim() ? { used: withUnit(draft.used.trim(), volumeUnit) } : {}),
  };
}
