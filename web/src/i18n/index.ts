// SPDX-License-Identifier: Apache-2.0
// Words of the pages. English comes with the app, other languages when they are asked for. What the label, the rules
// and the desk say stays in their own words.
import { Observable } from "../observable";
import { preferences, type Language } from "../settings/preferences";
import { en } from "./en";

export type Key = keyof typeof en;
export type Catalogue = Record<Key, string>;
export type Values = Record<string, string | number>;

const loaders: Record<Language, () => Promise<Catalogue>> = {
  en: async () => en,
  es: async () => (await import("./es")).es,
};

/** The catalogue in use; views watch it through useWords. */
export const catalogue = new Observable<Catalogue>(en);

export async function loadLanguage(language: Language): Promise<void> {
  const loaded = await loaders[language]();
  if (preferences.value.language === language) catalogue.set(loaded);
}

export function fill(text: string, values: Values = {}): string {
  return text.replace(/\{(\w+)\}/g, (whole, name: string) => (name in values ? String(values[name]) : whole));
}

export function t(key: Key, values?: Values): string {
  return fill(catalogue.value[key], values);
}

/** By count: the keys "NAME.one" and "NAME.other". */
export function tn(name: string, n: number, values: Values = {}): string {
  const form = new Intl.PluralRules(preferences.value.language).select(n) === "one" ? "one" : "other";
  return t(`${name}.${form}` as Key, { n, ...values });
}

/** Words for a name of the record, such as a state; the name itself where there are none. */
export function word(group: string, name: string): string {
  const key = `${group}.${name}`;
  return key in catalogue.value ? t(key as Key) : name;
}
