// SPDX-License-Identifier: Apache-2.0
// Days of the record are days of UTC (docs/stock.md); moments are shown in the zone of this device, with its name.
import { timeFormat } from "../settings/formats";

export const dayMs = 86_400_000;

/** The last whole day on which something may be used that may not be used from a moment on. */
export const lastDay = (untilMs: number): number => Math.floor(untilMs / dayMs) * dayMs - 1;

/** Whole days from now to the end of a day; below 0 once it is over. */
export const daysTo = (endMs: number, nowMs: number): number => Math.floor((endMs - nowMs) / dayMs);

/** "2027-01-31": the end of that day. NaN where it is none. */
export const endOfDay = (iso: string): number => Date.parse(`${iso}T00:00:00Z`) + dayMs - 1;

export function day(ms: number, language: string): string {
  return timeFormat(language, { year: "numeric", month: "short", day: "numeric", timeZone: "UTC" }).format(ms);
}

export function isoDay(iso: string, language: string): string {
  const ms = Date.parse(`${iso}T00:00:00Z`);
  return Number.isNaN(ms) ? iso : day(ms, language);
}

const toMinute = { year: "numeric", month: "short", day: "numeric", hour: "numeric", minute: "2-digit" } as const;

/** Of the record, to the second, with the zone. */
export function moment(ms: number, language: string, zone?: string): string {
  return timeFormat(language, { ...toMinute, second: "2-digit", timeZoneName: "short", ...(zone ? { timeZone: zone } : {}) }).format(ms);
}

/** On this device's own clock, for what nobody needs to the second. */
export const minuteOf = (ms: number, language: string): string => timeFormat(language, toMinute).format(ms);

export const ownZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone || "UTC";
