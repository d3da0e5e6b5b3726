// SPDX-License-Identifier: Apache-2.0
import type { Tone } from "../components/notice";
import { daysTo, endOfDay } from "./days";
import type { Credential } from "./shapes";

/** How many days before its last day somebody is told: an appointment for a fit test takes weeks. */
export const warnDays = 30;

export type Standing = "withdrawn" | "open" | "holds" | "soon" | "lapsed";

export const toneOf: Record<Standing, Tone> = { withdrawn: "plain", open: "done", holds: "done", soon: "hold", lapsed: "danger" };

/** A date that cannot be read counts as long past. */
export function standingOf(credential: Credential, nowMs: number): Standing {
  if (credential.withdrawn) return "withdrawn";
  if (!credential.expires) return "open";
  const left = daysTo(endOfDay(credential.expires), nowMs);
  if (Number.isNaN(left) || left < 0) return "lapsed";
  return left <= warnDays ? "soon" : "holds";
}

const subject = (one: Credential): string => JSON.stringify([one.what, one.facepiece, one.facepiece_model, one.facepiece_size, one.number]);

/** Without those that a later one of the same thing has taken the place of. */
export function newestOf(credentials: Credential[]): Credential[] {
  const newest = new Map<string, Credential>();
  for (const one of credentials) {
    if (one.withdrawn) continue;
    const before = newest.get(subject(one));
    if (!before || (one.expires ?? "9999") >= (before.expires ?? "9999")) newest.set(subject(one), one);
  }
  return [...newest.values()];
}
