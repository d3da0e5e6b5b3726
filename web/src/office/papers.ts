// SPDX-License-Identifier: Apache-2.0
// Addresses of papers, in the language and the units of whoever asks.
import type { OperationId } from "../api/generated";
import { addressOf } from "../api/operation";
import type { Language, UnitSystem } from "../settings/preferences";

export interface PaperOrder {
  as: "pdf" | "html";
  language: Language;
  size: "letter" | "a4";
  units: UnitSystem;
  zone: string;
}

export function paperAddress(id: OperationId, order: PaperOrder, names: Record<string, string> = {}, more: Record<string, string> = {}): string {
  const wanted = Object.entries({ ...order, ...more }).filter(([, value]) => value);
  return `${addressOf(id, names).path}?${new URLSearchParams(Object.fromEntries(wanted)).toString()}`;
}
