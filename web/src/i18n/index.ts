// SPDX-License-Identifier: Apache-2.0
// Words of the pages. English comes with the app, other languages when they are asked for, the items of the gate with
// them, and the sentences of the desk. What the label says stays in its own words.
import { Observable } from "../observable";
import { preferences, type Language } from "../settings/preferences";
import { en } from "./en";
import type { officeEn } from "./office_en";
import type { Sayings } from "./sayings";

export type Key = keyof typeof en | keyof typeof officeEn;
export type Catalogue = Record<keyof typeof en, string>;
type Words = Partial<Record<Key, string>>;
export type Values = Record<string, string | number>;

const loaders: Record<Language, () => Promise<Words>> = {
  en: async () => en,
  es: async () => Object.assign({}, ...(await Promise.all([import("./es").then(({ es }) => es), import("./gate_es").then(({ gateEs }) => gateEs)]))) as Words,
};

/** The words of office and audit, which phones on a driveway never load. */
const officeLoaders: Record<Language, () => Promise<Words>> = {
  en: async () => (await import("./office_en")).officeEn,
  es: async () => (await import("./office_es")).officeEs,
};
let officeWanted = false;

/** The desk, the engine and the server speak English, as to a command line; what is said on a page comes from here. */
const sayers: Record<Language, () => Promise<Sayings>> = {
  en: async () => (await import("./said_en")).saidEn,
  es: async () => (await import("./said_es")).saidEs,
};
let sayer: Sayings | undefined;

/** The catalogue in use; views watch it through useWords. */
export const catalogue = new Observable<Words>(en);

export async function loadLanguage(language: Language): Promise<void> {
  const [says, ...parts] = await Promise.all([sayers[language](), loaders[language](), ...(officeWanted ? [officeLoaders[language]()] : [])]);
  if (preferences.value.language !== language) return;
  sayer = says;
  catalogue.set(Object.assign({}, ...parts) as Words);
}

export async function loadOfficeWords(): Promise<void> {
  if (officeWanted) return;
  officeWanted = true;
  await loadLanguage(preferences.value.language);
}

/** What was said, as the pages say it in the language in use, where that has the sentence. */
export function said(text: string): { text: string; language: string } {
  const own = sayer?.(text);
  return own === undefined ? { text, language: "en" } : { text: own, language: preferences.value.language };
}

/** The stop of a value, as of "3:12 p.m.", is the sentence's as well. */
export function fill(text: string, values: Values = {}): string {
  return text.replace(/\{(\w+)\}(\.?)/g, (whole, name: string, stop: string) => {
    if (!(name in values)) return whole;
    const value = String(values[name]);
    return value.endsWith(".") ? value : value + stop;
  });
}

export function t(key: Key, values?: Values): string {
  return fill(catalogue.value[key] ?? key, values);
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
