// SPDX-License-Identifier: Apache-2.0
// The parts of a job's plan and of a plan's answer that views read (docs/entries.md, docs/plan-json.md); the API's
// description leaves them open.
import type { Job, Plan } from "../api/generated";

export interface PlannedReturn {
  name: string;
  seconds: number;
  band_s: [number, number];
}

export interface PlannedSystem {
  name: string;
  area_mm2: number;
  target_s: number;
  band_s: [number, number];
  returns: PlannedReturn[];
}

export interface JobPlan {
  systems: PlannedSystem[];
  volume_ul: { low: number; target: number; high: number };
  load_ul: number;
  flow_basis: string;
  hold_minutes: { total: number; floor: number; readings_needed?: boolean };
  governs: string;
  respirator: { required: boolean; facepiece: string; cartridges?: string[]; do_not_enter?: boolean };
  limits: { cas: string; name: string; occupant_ug_m3: number }[];
  warnings: string[];
}
export const planOf = (job: Job): JobPlan => job.plan as unknown as JobPlan;

export interface FoggedReturn {
  system: string;
  return: string;
  actual_ms: number;
}
/** What is recorded of one return; stretches add up. */
export const foggedMs = (job: Job, system: string, name: string): number =>
  (job.returns as unknown as FoggedReturn[])
    .filter((one) => one.system === system && one.return === name)
    .reduce((sum, one) => sum + one.actual_ms, 0);

export interface ReadingTaken {
  ms: number;
  substance: string;
  typed: string;
  fan_running: boolean;
  by: string;
}
export const readingsOf = (job: Job): ReadingTaken[] => (job as unknown as { readings?: ReadingTaken[] }).readings ?? [];

/** Fog that is out and not released. */
export const holds = (job: Job): boolean => job.hold !== undefined && job.state !== "fogging" && !("released" in job);

export interface PlanAnswer {
  label: { name: string; registration: string; signal_word: string; strength_class: string };
  systems: { name: string; area_ft2: number; target_seconds: number; returns: { name: string; seconds: number; band_seconds: [number, number] }[] }[];
  total_seconds: number;
  volume_ml: { low: number; target: number; high: number };
  load_ml: number;
  flow: { ml_per_min: number; basis: string };
  hold_minutes: { total: number; floor: number; governs: string };
  respirator: { required: boolean; facepiece: string; cartridges: string[]; do_not_enter: boolean };
  cautions: string[];
  warnings: { id: string; words: string }[];
}
export const planAnswer = (plan: Plan): PlanAnswer => plan as unknown as PlanAnswer;
