// SPDX-License-Identifier: Apache-2.0
// The desk says the items of the gate in English. In Spanish they stand in gate_es.ts; what the job at hand puts into
// them stays as it is (a count, the label's own list of gear); the kind of respirator is a word of ours.
import type { Job } from "../api/generated";
import { catalogue, word } from "../i18n";

type Item = Pick<Job["items"][number], "item" | "words" | "value" | "why">;

export interface ItemWords {
  words: string;
  why: string;
  /** What they are written in. */
  language: string;
}

/** The engine names the facepiece with blanks, the record with hyphens. */
export const facepieceWord = (facepiece: string): string => {
  const name = facepiece.replaceAll(" ", "-");
  const said = word("facepiece", name);
  return said === name ? facepiece : said;
};

export type NamedItem = Pick<Item, "item" | "words">;

/** "3 items are open: animals-out (not met yet)" with what the items say in place of their ids. */
export const withItemWords = (text: string, items: NamedItem[]): string =>
  text.replace(/([a-z-]+)(?= \()/g, (id) => items.find(({ item }) => item === id)?.words.replace(/\.$/, "") ?? id);

/** A question whose field shows already how it is answered: by its unit, or as a date. */
export const withoutExample = (question: string): string => question.replace(/, (?:e\.g\.|por ejemplo) .*$/, "");

/** Where a translation is missing, as with an item of a later version, the desk's own words stand. */
export function itemWords({ item, words, value, why = "" }: Item, language: string): ItemWords {
  const known = catalogue.value as Record<string, string>;
  const [translated, reason] = [known[`item.${item}`], known[`itemWhy.${item}`]];
  const whole = translated?.includes("{}") === (value !== undefined);
  if (!translated || !reason || !whole) return { words, why, language: "en" };
  const put = item === "respirator-facepiece" ? facepieceWord(value ?? "") : value ?? "";
  return { words: translated.replace("{}", () => put), why: reason, language };
}
