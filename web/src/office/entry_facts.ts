// SPDX-License-Identifier: Apache-2.0
// What an entry says beside its kind, in a line: the members of its body that a reader asks for first (docs/entries.md).
import type { UnitSystem } from "../settings/preferences";
import { shownName } from "../driveway/return_names";
import { number, volume } from "../settings/units";
import type { EntryRow } from "./shapes";

type Body = Record<string, unknown>;

const text = (body: Body, name: string): string => (typeof body[name] === "string" ? (body[name] as string) : "");

function seconds(body: Body, language: string): string {
  const actual = Number(body.actual_ms) / 1000;
  return `${number(actual, 2, language)} s / ${String(body.planned_s ?? "?")} s`;
}

const shown = (value: unknown): string => (typeof value === "object" ? JSON.stringify(value) : String(value));

/** As it was typed where that stands beside the figure it was read as. */
function evidence(body: Body): string {
  const given = (body.evidence ?? {}) as Body;
  const told = given.typed ? Object.entries(given).filter(([name]) => !/(^|_)(ul|mg|ms)$|^minutes$/.test(name)) : Object.entries(given);
  return told.filter(([, value]) => value !== true).map(([, value]) => shown(value)).join(", ");
}

export interface FactWords {
  units: UnitSystem;
  language: string;
  word: (group: string, name: string) => string;
  tn: (name: string, n: number) => string;
  /** What an item of the gate says, by its name. */
  itemWords: ReadonlyMap<string, string>;
}

export function factsOf({ kind, body }: EntryRow, { units, language, word, tn, itemWords }: FactWords): string {
  const of = body as Body;
  const amount = (name: string) => (typeof of[name] === "number" ? volume(of[name] as number, units, "nearest", language) : "");
  const joined = (...parts: string[]) => parts.filter(Boolean).join(", ");
  const item = (itemWords.get(text(of, "requirement")) ?? text(of, "requirement")).replace(/\.$/, "");
  switch (kind) {
    case "requirement-met": return joined(item, evidence(of));
    case "requirement-lapsed": return joined(item, text(of, "why"));
    case "start-refused": return tn("life.openItems", Array.isArray(of.missing) ? of.missing.length : 0);
    case "return-fogged": return joined(shownName(text(of, "system")), shownName(text(of, "return")), seconds(of, language));
    case "reading-taken": return joined(text(of, "substance"), text(of, "typed"), text(of, "instrument"));
    case "fog-ended": return joined(amount("used_ul"), word("measured", text(of, "measured")));
    case "drawn":
    case "returned": return joined(text(of, "from") || text(of, "vessel"), amount("ul"));
    case "job-released": return word("ground", text(of, "ground"));
    case "cartridge-used": return joined(text(of, "cartridge"), `${String(of.minutes)} min`);
    case "note": return text(of, "text");
    default: return joined(text(of, "why"), text(of, "reason"), text(of, "what"));
  }
}
