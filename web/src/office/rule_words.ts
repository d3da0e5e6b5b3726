// SPDX-License-Identifier: Apache-2.0
// The server says its rules in English. In Spanish they stand in rules_es.ts, which comes with the Spanish words.
import { catalogue, said } from "../i18n";

interface Rule {
  id: string;
  words: string;
  what_to_do: string;
}

export interface RuleWords {
  words: string;
  whatToDo: string;
  /** What the words are written in. */
  language: string;
}

export function ruleWords({ id, words, what_to_do }: Rule, language: string): RuleWords {
  const known = catalogue.value as Record<string, string>;
  const [translated, remedy] = [known[`rule.${id}`], known[`remedy.${id}`]];
  return translated && remedy ? { words: translated, whatToDo: remedy, language } : { words, whatToDo: said(what_to_do).text, language: "en" };
}
