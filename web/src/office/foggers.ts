// SPDX-License-Identifier: Apache-2.0
import { numberFormat } from "../settings/formats";
import type { CatchDay } from "./shapes";

/** More than a tenth, either way (docs/stock.md). A sliver of binary noise does not push it over. */
export const isLarge = (drift: number | null): boolean => Math.abs(drift ?? 0) > 0.1 + 1e-9;

/** Flow of a test against the one before it, minus one; null for the first. */
export function driftAt(tests: CatchDay[], at: number): number | null {
  const [now, before] = [tests[at], tests[at - 1]];
  return now && before && before.flow_ul_min > 0 ? now.flow_ul_min / before.flow_ul_min - 1 : null;
}

export const lastDrift = (tests: CatchDay[]): number | null => driftAt(tests, tests.length - 1);

/** "+4.2 %"; away from nothing, so that what is over the mark never reads as on it. */
export function driftText(drift: number, language: string): string {
  const percent = (Math.sign(drift) * Math.ceil(Math.abs(drift) * 1000 - 1e-9)) / 10;
  return `${numberFormat(language, { signDisplay: "exceptZero", maximumFractionDigits: 1 }).format(percent)} %`;
}
