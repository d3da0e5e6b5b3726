// SPDX-License-Identifier: Apache-2.0
// The desk says the items of the gate in English. In Spanish they stand in gate_es.ts; what the job at hand puts into
// them (a count, the label's own list of gear) stays as it is.
import type { Job } from "../api/generated";
import { catalogue } from "../i18n";

type Item = Pick<Job["items"][number], "item" | "words" | "value" | "why">;

export interface ItemWords {
  words: string;
  why: string;
  /** What they are written in. */
  language: string;
}

/** Where a translation is missing, as with an item of a later version, the desk's own words stand. */
export function itemWords({ item, words, value, why = "" }: Item, language: string): ItemWords {
  const known = catalogue.value as Record<string, string>;
  const [translated, reason] = [known[`item.${item}`], known[`itemWhy.${item}`]];
  const whole = translated?.includes("{}") === (value !== undefined);
  if (!translated || !reason || !whole) return { words, why, language: "en" };
  return { words: translated.replace("{}", () => value ?? ""), why: reason, language };
}
