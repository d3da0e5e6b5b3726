// SPDX-License-Identifier: Apache-2.0
// The desk says the items of the gate in English. In Spanish they stand in gate_es.ts; what the job at hand puts into
// them (a count, the label's own list of gear) stays as it is.
import { catalogue } from "../i18n";

interface Item {
  item: string;
  words: string;
  why?: string;
}

export interface ItemWords {
  words: string;
  why: string;
  /** What they are written in. */
  language: string;
}

/** What stands where the frame has {}; nothing where the words are not made from the frame. */
export function filledIn(frame: string, words: string): string | undefined {
  const [before = "", after = ""] = frame.split("{}");
  const fits = words.length >= before.length + after.length && words.startsWith(before) && words.endsWith(after);
  return fits ? words.slice(before.length, words.length - after.length) : undefined;
}

/** Where a translation is missing, or the item is of another program's version, the desk's own words stand. */
export function itemWords({ item, words, why = "" }: Item, language: string): ItemWords {
  const known = catalogue.value as Record<string, string>;
  const [translated, reason, frame] = [known[`item.${item}`], known[`itemWhy.${item}`], known[`itemFrame.${item}`]];
  const value = frame === undefined ? "" : filledIn(frame, words);
  if (!translated || !reason || value === undefined) return { words, why, language: "en" };
  return { words: translated.replace("{}", () => value), why: reason, language };
}
