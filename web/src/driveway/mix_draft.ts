// SPDX-License-Identifier: Apache-2.0
// A mix as it is being written down: out of which containers each part was measured.
import type { Operations, Vessel } from "../api/generated";
import { withUnit } from "../settings/units";

export type MixingSheet = Operations["showMixing"]["answer"];
export type MixingLine = MixingSheet["lines"][number];

export interface Taken {
  container: string;
  /** As it was typed; left out, the whole of what the line asks for. */
  volume: string;
}

export interface MixDraft {
  make: string;
  table: string;
  /** By ingredient. */
  taken: Record<string, Taken[]>;
  place: string;
  respirator: "" | "yes" | "no";
  reason: string;
}

export const emptyMix = (make: string, place: string): MixDraft => ({ make, table: "", taken: {}, place, respirator: "", reason: "" });

/** Containers that hold the ingredient of a line. Where there is only one the container need not name its part. */
export function containersFor(line: MixingLine, sheet: MixingSheet, product: string, vessels: Vessel[]): Vessel[] {
  const alone = sheet.lines.filter((one) => one.from_container).length === 1;
  return vessels.filter((one) => {
    const [key, ...part] = one.item.split("/");
    const named = part.join("/");
    return !one.batch && one.remaining_ul > 0 && key === product && (named === line.ingredient || (alone && !named));
  });
}

export function toggled(draft: MixDraft, ingredient: string, container: string): MixDraft {
  const before = draft.taken[ingredient] ?? [];
  const without = before.filter((one) => one.container !== container);
  return { ...draft, taken: { ...draft.taken, [ingredient]: without.length < before.length ? without : [...before, { container, volume: "" }] } };
}

export function measured(draft: MixDraft, ingredient: string, container: string, volume: string): MixDraft {
  const taken = (draft.taken[ingredient] ?? []).map((one) => (one.container === container ? { container, volume } : one));
  return { ...draft, taken: { ...draft.taken, [ingredient]: taken } };
}

const takenFor = (draft: MixDraft, line: MixingLine): Taken[] => draft.taken[line.ingredient] ?? [];

/** Out of several containers each amount must be told: nobody else knows it. */
export function isMixed(draft: MixDraft, sheet: MixingSheet): boolean {
  const parts = sheet.lines.filter((line) => line.from_container).map((line) => takenFor(draft, line));
  return parts.length > 0 && Boolean(draft.make.trim() && draft.place && draft.respirator)
    && parts.every((taken) => taken.length > 0 && (taken.length === 1 || taken.every((one) => one.volume.trim())));
}

export function partsOf(draft: MixDraft, sheet: MixingSheet, unit: string): string[] {
  return sheet.lines.filter((line) => line.from_container).flatMap((line) => takenFor(draft, line))
    .map(({ container, volume }) => (volume.trim() ? `${container}=${withUnit(volume, unit)}` : container));
}
