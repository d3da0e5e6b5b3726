// SPDX-License-Identifier: Apache-2.0
// Figures for people, in the units they chose. Rounding names its side: what must suffice goes up, what is left goes
// down. The factors are exact (NIST SP 811); the engine does the reckoning, here is only display.
import { numberFormat, timeFormat, unbroken } from "./formats";
import type { UnitSystem } from "./preferences";

export const microlitresPerFluidOunce = 29_573.529_562_5; // US gallon of 231 cubic inches / 128
export const squareMillimetresPerSquareFoot = 92_903.04;

export type Side = "up" | "down" | "nearest";

/** Rounded to so many decimals, to one side. A sliver of binary noise does not push it over. */
export function roundTo(value: number, decimals: number, side: Side): number {
  const scale = 10 ** decimals;
  const scaled = value * scale;
  const near = Math.round(scaled);
  if (side === "nearest" || Math.abs(scaled - near) < 1e-9 * Math.max(1, Math.abs(scaled))) return near / scale;
  return (side === "up" ? Math.ceil(scaled) : Math.floor(scaled)) / scale;
}

export function number(value: number, decimals: number, language: string): string {
  return numberFormat(language, { maximumFractionDigits: decimals }).format(value);
}

/**
 * The record counts whole microlitres: a gallon in it, 3,785,411, is 128 fl oz and not 127.9. Each draw is rounded up to
 * one, so that what is left may lack some of them: 14 fl oz out of a gallon leave 114. What must suffice lacks none.
 */
const sliverUl: Record<Side, number> = { up: 1, nearest: 1, down: 10 };

const withoutSliver = (units: number, microlitres: number, decimals: number, side: Side): number => {
  const near = roundTo(units, decimals, "nearest");
  return Math.abs(near - units) * microlitres < sliverUl[side] ? near : units;
};

export function volume(ul: number, units: UnitSystem, side: Side, language: string): string {
  if (units === "us") {
    const ounces = withoutSliver(ul / microlitresPerFluidOunce, microlitresPerFluidOunce, 1, side);
    return ounces >= 256
      ? unbroken(`${number(roundTo(ounces / 128, 2, side), 2, language)} gal`)
      : unbroken(`${number(roundTo(ounces, 1, side), 1, language)} fl oz`);
  }
  return ul >= 10_000_000
    ? unbroken(`${number(roundTo(ul / 1e6, 2, side), 2, language)} L`)
    : unbroken(`${number(roundTo(ul / 1e3, 0, side), 0, language)} mL`);
}

/** What a whole scale is shown in, by its largest value: the same steps as above. */
export function chartUnit(largestUl: number, units: UnitSystem): [symbol: string, microlitres: number] {
  if (units === "us") return largestUl / microlitresPerFluidOunce >= 256 ? ["gal", 128 * microlitresPerFluidOunce] : ["fl oz", microlitresPerFluidOunce];
  return largestUl >= 10_000_000 ? ["L", 1e6] : ["mL", 1e3];
}

export function area(mm2: number, units: UnitSystem, language: string): string {
  return units === "us"
    ? unbroken(`${number(roundTo(mm2 / squareMillimetresPerSquareFoot, 0, "nearest"), 0, language)} sq ft`)
    : unbroken(`${number(roundTo(mm2 / 1e6, 1, "nearest"), 1, language)} m²`);
}

/** The unit that a bare number in a field means; the engine reads the text. */
export const typedUnit = {
  us: { area: "sq ft", volume: "fl oz", flow: "mL/min", face: "in" },
  metric: { area: "m2", volume: "mL", flow: "mL/min", face: "cm" },
} as const;

/** A figure that is shown, as it is typed. */
export const typed = (shown: string): string => shown.replaceAll("\u00a0", " ").trim();

/** "2400" becomes "2400 sq ft"; what carries a unit stays as it was typed. */
export function withUnit(given: string, unit: string): string {
  const text = typed(given);
  return /^[\d.,\s]+$/.test(text) ? `${text} ${unit}` : text;
}

/** "2 h 05 min", "4:09" while seconds count. A time that must still pass rounds up. */
export function countdown(ms: number): string {
  const seconds = Math.max(0, Math.ceil(ms / 1000));
  const [h, m, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
  const two = (n: number) => String(n).padStart(2, "0");
  return h > 0 ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
}

export function minutes(total: number): string {
  const [h, m] = [Math.floor(total / 60), total % 60];
  if (h === 0) return unbroken(`${m} min`);
  return unbroken(m === 0 ? `${h} h` : `${h} h ${m} min`);
}

/** A time of day at the job's place, not the phone's. */
export function timeOfDay(ms: number, zone: string, language: string, seconds = false): string {
  return timeFormat(language, {
    hour: "numeric", minute: "2-digit", ...(seconds ? { second: "2-digit" } : {}), timeZone: zone,
  }).format(ms);
}

export function dayAndTime(ms: number, zone: string, language: string): string {
  return timeFormat(language, {
    weekday: "short", month: "short", day: "numeric", hour: "numeric", minute: "2-digit", timeZone: zone,
  }).format(ms);
}
