// SPDX-License-Identifier: Apache-2.0
// Containers and batches, taken together by place, item and lot.
import type { StockLine, VesselRow } from "./shapes";

export interface ShelfRow {
  place: string;
  item: string;
  lot: string;
  ids: string[];
  leftUl: number;
  usableUl: number;
  /** Of the one that ends first. */
  usableUntilMs: number;
  /** Of the item, wherever it stands; null where too little is known of its use. */
  coverDays: number | null;
}

export function shelfRows(vessels: VesselRow[], stock: StockLine[]): ShelfRow[] {
  const cover = new Map(stock.map((line) => [line.item, line.days_of_cover]));
  const rows = new Map<string, ShelfRow>();
  for (const one of vessels) {
    const key = JSON.stringify([one.place, one.item, one.lot]);
    const row = rows.get(key) ?? { place: one.place, item: one.item, lot: one.lot, ids: [], leftUl: 0, usableUl: 0, usableUntilMs: Infinity, coverDays: cover.get(one.item) ?? null };
    row.ids.push(one.id);
    row.leftUl += one.remaining_ul;
    row.usableUl += one.usable ? one.remaining_ul : 0;
    row.usableUntilMs = Math.min(row.usableUntilMs, one.usable_until_ms);
    rows.set(key, row);
  }
  return [...rows.values()].sort((a, b) => a.place.localeCompare(b.place) || a.usableUntilMs - b.usableUntilMs || a.item.localeCompare(b.item));
}
