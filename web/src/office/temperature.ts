// SPDX-License-Identifier: Apache-2.0
import type { UnitSystem } from "../settings/preferences";
import { number } from "../settings/units";

/** Millikelvins as a thermometer shows them: 0 °C is 273.15 K, 32 °F (NIST SP 811). */
export function temperature(mk: number, units: UnitSystem, language: string): string {
  const celsius = (mk - 273_150) / 1000;
  return units === "us" ? `${number(celsius * 1.8 + 32, 1, language)} °F` : `${number(celsius, 1, language)} °C`;
}
