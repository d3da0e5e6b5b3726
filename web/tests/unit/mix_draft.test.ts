// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import test from "node:test";
import type { Vessel } from "../../src/api/generated";
import { containersFor, emptyMix, isMixed, measured, partsOf, toggled, type MixDraft, type MixingLine, type MixingSheet } from "../../src/driveway/mix_draft";

const line = (ingredient: string, from_container = true): MixingLine => ({ ingredient, from_container, amount_ml: 22.1, amount: { us: "0.7 fl oz", metric: "22.1 mL" }, instruction: "" });
const sheet = (...lines: MixingLine[]): MixingSheet => ({ label: "Brackwater 20", tables: ["duct"], table: "duct", makes_ml: 1893, batches: 1, lines, gear: [], respirator: true, cautions: [] });
const vessel = (id: string, item: string, more: Partial<Vessel> = {}): Vessel => ({ id, item, lot: "L", place: "heron", batch: false, size_ul: 1000, remaining_ul: 500, usable: true, ...more });

const twoParts = sheet(line("water", false), line("Part A"), line("Part B"));

test("a line takes the containers of its own part, that are not empty and no batch", () => {
  const vessels = [
    vessel("A1", "brackwater-20/Part A"), vessel("A2", "brackwater-20/Part A", { remaining_ul: 0 }), vessel("A3", "other/Part A"),
    vessel("B1", "brackwater-20/Part B"), vessel("M1", "brackwater-20", { batch: true }), vessel("C1", "brackwater-20"),
  ];
  assert.deepEqual(containersFor(line("Part A"), twoParts, "brackwater-20", vessels).map((one) => one.id), ["A1"]);
  assert.deepEqual(containersFor(line("concentrate"), sheet(line("concentrate")), "brackwater-20", vessels).map((one) => one.id), ["C1"]);
});

test("a mix is ready when each part has its container, and the respirator is answered for", () => {
  let draft = emptyMix("64", "heron");
  assert.ok(!isMixed(draft, twoParts));
  draft = toggled(toggled(draft, "Part A", "A1"), "Part B", "B1");
  assert.ok(!isMixed(draft, twoParts), "nobody said whether the respirator was worn");
  draft = { ...draft, respirator: "no" };
  assert.ok(isMixed(draft, twoParts));
  assert.ok(!isMixed({ ...draft, place: "" }, twoParts));
  assert.ok(!isMixed({ ...draft, make: " " }, twoParts));
  assert.ok(!isMixed(toggled(draft, "Part A", "A1"), twoParts), "taken back");
  assert.ok(!isMixed(draft, sheet(line("water", false))), "a table that is not named has no parts");
});

test("out of one container goes the whole part, out of two each amount is told", () => {
  let draft: MixDraft = { ...emptyMix("64", "heron"), respirator: "yes" };
  draft = toggled(toggled(draft, "Part A", "A1"), "Part B", "B1");
  assert.deepEqual(partsOf(draft, twoParts, "fl oz"), ["A1", "B1"]);
  draft = toggled(draft, "Part A", "A2");
  assert.ok(!isMixed(draft, twoParts));
  draft = measured(measured(draft, "Part A", "A1", "0.5"), "Part A", "A2", "6 mL");
  assert.ok(isMixed(draft, twoParts));
  assert.deepEqual(partsOf(draft, twoParts, "fl oz"), ["A1=0.5 fl oz", "A2=6 mL", "B1"]);
});
