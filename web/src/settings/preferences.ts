// SPDX-License-Identifier: Apache-2.0
// What somebody prefers on this device. In localStorage, since the first paint needs it (src/early.ts).
import { Observable } from "../observable";

export const themes = ["auto", "day", "dark", "contrast"] as const;
export const languages = ["en", "es"] as const;
export const unitSystems = ["us", "metric"] as const;
export type Theme = (typeof themes)[number];
export type Language = (typeof languages)[number];
export type UnitSystem = (typeof unitSystems)[number];

export interface Preferences {
  theme: Theme;
  language: Language;
  units: UnitSystem;
  /** Spoken marks while fogging. */
  voice: boolean;
  sound: boolean;
  /** What this device is called in the record. */
  device: string;
}

export const storageKey = "fogwright.preferences";

function oneOf<T extends string>(allowed: readonly T[], value: unknown, otherwise: T): T {
  return allowed.includes(value as T) ? (value as T) : otherwise;
}

/** Whatever was kept, made whole: a value of another version is not trusted. */
export function readPreferences(text: string | null, browserLanguage: string): Preferences {
  let kept: Record<string, unknown> = {};
  try {
    const read: unknown = JSON.parse(text ?? "{}");
    if (read && typeof read === "object") kept = read as Record<string, unknown>;
  } catch {
    // Spoilt text is as good as none.
  }
  return {
    theme: oneOf(themes, kept.theme, "auto"),
    language: oneOf(languages, kept.language, browserLanguage.startsWith("es") ? "es" : "en"),
    units: oneOf(unitSystems, kept.units, "us"),
    voice: kept.voice !== false,
    sound: kept.sound !== false,
    device: typeof kept.device === "string" ? kept.device.slice(0, 64) : "",
  };
}

function stored(): string | null {
  try {
    return localStorage.getItem(storageKey);
  } catch {
    return null; // storage that is switched off: preferences last as long as the page
  }
}

export const preferences = new Observable<Preferences>(readPreferences(stored(), globalThis.navigator?.language ?? "en"));

export function prefer(change: Partial<Preferences>): void {
  preferences.set({ ...preferences.value, ...change });
  try {
    localStorage.setItem(storageKey, JSON.stringify(preferences.value));
  } catch {
    // as above
  }
}

/** Attributes that the styles go by. */
export function applyPreferences(of: Preferences): void {
  document.documentElement.dataset.theme = of.theme;
  document.documentElement.lang = of.language;
}
