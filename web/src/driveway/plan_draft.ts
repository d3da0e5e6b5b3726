// SPDX-License-Identifier: Apache-2.0
// What is typed on the driveway, and the site it stands for (docs/site-file.md).
import { typedUnit, withUnit } from "../settings/units";
import type { UnitSystem } from "../settings/preferences";

export interface DraftReturn {
  key: number;
  name: string;
  face: string;
}

export interface Draft {
  product: string;
  area: string;
  returns: DraftReturn[];
  fogger: string;
  animals: boolean;
  sensitive: boolean;
  entrances: string;
}

export const emptyDraft = (): Draft =>
  ({ product: "", area: "", returns: [{ key: 1, name: "", face: "" }], fogger: "", animals: false, sensitive: false, entrances: "" });

export const newReturn = (returns: DraftReturn[]): DraftReturn => ({ key: Math.max(0, ...returns.map((one) => one.key)) + 1, name: "", face: "" });

export const isReady = (draft: Draft): boolean => draft.product !== "" && /\d/.test(draft.area) && draft.returns.length > 0;

/** "20x30" becomes "20x30 in"; a size with a unit stays. */
const faceText = (face: string, unit: string) => (/[a-z"']\s*$/i.test(face.trim()) ? face.trim() : `${face.trim()} ${unit}`);

function returnsOf(draft: Draft, unit: string): Record<string, unknown> {
  if (draft.returns.every((one) => !one.name.trim() && !one.face.trim())) return { returns: draft.returns.length };
  return {
    return: draft.returns.map((one, at) => ({
      name: one.name.trim() || `return ${at + 1}`,
      ...(one.face.trim() ? { face: faceText(one.face, unit) } : {}),
    })),
  };
}

export function siteOf(draft: Draft, units: UnitSystem): Record<string, unknown> {
  const unit = typedUnit[units];
  const allFaces = draft.returns.length > 1 && draft.returns.every((one) => one.face.trim());
  const entrances = Number.parseInt(draft.entrances, 10);
  return {
    ...(allFaces ? { split: "face" } : {}),
    system: [{ area: withUnit(draft.area, unit.area), ...returnsOf(draft, unit.face) }],
    site: {
      ...(draft.animals ? { animals: true } : {}),
      ...(draft.sensitive ? { sensitive_person: true } : {}),
      ...(entrances > 0 ? { entrances } : {}),
    },
  };
}
