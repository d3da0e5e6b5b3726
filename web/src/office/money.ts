// SPDX-License-Identifier: Apache-2.0
import { numberFormat } from "../settings/formats";

/** Cents as an amount. The book keeps no currency: what was paid is in the firm's own. */
export function money(cents: number, language: string): string {
  return numberFormat(language, { minimumFractionDigits: 2, maximumFractionDigits: 2 }).format(cents / 100);
}
