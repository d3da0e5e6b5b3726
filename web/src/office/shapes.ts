// SPDX-License-Identifier: Apache-2.0
// Members of answers that the API's description leaves open (docs/entries.md), as the office reads them.
import type { Operations } from "../api/generated";

type Item<Id extends "listProducts" | "listCartridges" | "listPlaces" | "listJobCosts" | "showStock"> = Operations[Id]["answer"]["items"][number];

export interface Credential {
  entry: string;
  what: string;
  issued: string;
  expires?: string;
  facepiece?: string;
  facepiece_model?: string;
  facepiece_size?: string;
  number?: string;
  issuer?: string;
  result?: string;
  withdrawn?: unknown;
}

export interface CatchDay {
  on: string;
  flow_ul_min: number;
  low_ul_min: number;
  high_ul_min: number;
  runs: number;
  spread_ppm: number;
}

export interface LabelVersion {
  digest: string;
  label_date?: string;
  entry: string;
  retired?: unknown;
}
export const versionsOf = (product: Item<"listProducts">): LabelVersion[] => product.versions as unknown as LabelVersion[];

export type Cartridge = Item<"listCartridges"> & { active: boolean; model: string; words: string[]; basis: string };
export type PlaceRow = Item<"listPlaces"> & { last_read_ms?: number; last_temperature_mk?: number };
export type StockLine = Item<"showStock"> & {
  containers: number;
  batches_usable_ul: number;
  jobs_left: number | null;
  days_of_cover: number | null;
  reorder_point_ul: number | null;
  expiring: string[];
};
export type VesselRow = Operations["listVessels"]["answer"]["items"][number] & { usable_until_ms: number; opened_ms: number | null };
export interface Movement {
  at_ms: number;
  seq: number;
  ul: number;
  what: string;
  actor: string;
  job?: string;
}
export interface Draw {
  from: string;
  lot: string;
  ul: number;
  cents: number | null;
}

export const severities = ["grave", "major", "minor", "note"] as const;
export type Severity = (typeof severities)[number];

export interface DepartureRow {
  rule: string;
  severity: Severity;
  kind: string;
  citation: string;
  what: string;
  what_to_do: string;
  entries: number[];
  at_ms: number;
  job?: string;
  person?: string;
  product?: string;
  place?: string;
}

export interface UseChart {
  of: string;
  name: string;
  centre: number;
  lower: number;
  upper: number;
  flagged: boolean;
  points: { at_ms: number; of: string; off_percent: number; seq: number }[];
  outside: number[];
}

export interface AuditAnswer {
  entries: number;
  by_severity: Record<Severity, number>;
  departures: DepartureRow[];
  left_out: number;
  charts: UseChart[];
  record: { verified: boolean; findings: { seq: number | null; what: string }[]; checkpoints: unknown[] };
}

export interface AuditRule {
  id: string;
  severity: Severity;
  kind: string;
  citation: string;
  words: string;
  what_to_do: string;
}

export interface KeptRecord {
  id: string;
  what: string;
  keep: string;
  kind: string;
  citation: string;
  remark: string;
  count: number;
  oldest_ms: number | null;
  newest_ms: number | null;
  next_over_ms: number | null;
  over: number;
}

/** Of one job or person. */
export interface HeldRecord {
  what: string;
  until_ms: number | null;
  rule: Pick<KeptRecord, "id" | "what" | "keep" | "kind" | "citation" | "remark">;
}

export type EntryRow = Operations["listEntries"]["answer"]["items"][number];
