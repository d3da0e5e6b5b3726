// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import test from "node:test";
import type { Job } from "../../src/api/generated";
import { answerable, emptyAfterwards, isMetBefore, isTold, recordOf, returnNames } from "../../src/driveway/afterwards";

const item = (name: string, stage: string, by_facts = false) => ({ item: name, stage, by_facts, question: "", words: name });
const system = (name: string, ...returns: string[]) => ({ name, returns: returns.map((one) => ({ name: one })) });
const job = (systems: unknown[]): Job => ({
  job: "J1", state: "planned", product: "p", technician: "sedge", returns: [], missing: [], met: { "label-read": {} }, plan: { systems },
  items: [item("label-read", "before fogging"), item("people-out", "before fogging"), item("hours", "before fogging", true), item("nobody-in", "while fogging"), item("aired-out", "before release"), item("leave-behind", "before closing")],
});
const one = job([system("downstairs", "hall", "den")]);

test("returns of one system go by their names, of several with their system", () => {
  assert.deepEqual(returnNames(one), ["hall", "den"]);
  assert.deepEqual(returnNames(job([system("up", "hall"), system("down", "hall")])), ["up: hall", "down: hall"]);
});

test("asked is what somebody saw, and of the release only where there was one", () => {
  assert.deepEqual(answerable(one, emptyAfterwards).map((item) => item.item), ["label-read", "people-out", "nobody-in"]);
  assert.deepEqual(answerable(one, { ...emptyAfterwards, released: "2026-05-11T09:00" }).map((item) => item.item), ["label-read", "people-out", "nobody-in", "aired-out"]);
});

test("what is left empty is left out, also the answers to items that are no longer asked", () => {
  const draft = { ...emptyAfterwards, started: "2026-05-11T07:05", ended: "2026-05-11T07:08", why: " phone dead ", seconds: { hall: "62", den: " " }, answers: { "people-out": "2", "nobody-in": "", "aired-out": "yes" } };
  assert.deepEqual(recordOf(one, draft, "fl oz"), { started: "2026-05-11 07:05", ended: "2026-05-11 07:08", why: "phone dead", returns: { hall: "62 s" }, met: { "people-out": "2" } });
  const more = recordOf(one, { ...draft, released: "2026-05-11T09:00", used: "14" }, "fl oz");
  assert.equal(more.released, "2026-05-11 09:00");
  assert.equal(more.used, "14 fl oz");
  assert.deepEqual(more.met, { "people-out": "2", "aired-out": "yes" });
});

test("what was met on an earlier day can be answered again, and left empty the earlier answer stays", () => {
  assert.deepEqual(one.items.filter((item) => isMetBefore(one, item)).map((item) => item.item), ["label-read"]);
  for (const [answers, met] of [[{}, {}], [{ "label-read": " " }, {}], [{ "label-read": "yes" }, { "label-read": "yes" }]] as const)
    assert.deepEqual(recordOf(one, { ...emptyAfterwards, answers }, "fl oz").met, met);
});

test("both times and the reason must be told", () => {
  const draft = { ...emptyAfterwards, started: "2026-05-11T07:05", ended: "2026-05-11T07:08", why: "phone dead" };
  assert.ok(isTold(draft));
  for (const name of ["started", "ended", "why"] as const) assert.ok(!isTold({ ...draft, [name]: "" }), name);
});
