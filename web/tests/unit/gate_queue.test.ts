// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";
import type { Job } from "../../src/api/generated";
import { allStages, countItems, openItems } from "../../src/driveway/gate_queue";
import { en } from "../../src/i18n/en";

const item = (name: string, stage: string, more = {}) => ({ item: name, words: name, question: "", stage, ...more });
const job = (state: string, missing: [string, string][]): Job =>
  ({
    job: "J1", state, product: "fenmist-rtu", technician: "sedge", plan: {}, met: {}, returns: [],
    items: [item("label-read", "before mixing or filling"), item("fan-on", "before fogging"), item("hold-passed", "before release", { by_facts: true }), item("signs-down", "before closing")],
    missing: missing.map(([requirement, stage]) => ({ requirement, stage, why: "not met yet" })),
  }) as unknown as Job;

test("the stages are those of the engine, and each has a word", () => {
  const names = [...readFileSync("../src/gate/rule_names.cpp", "utf8").matchAll(/return "((?:before|while) [a-z ]+)"/g)].map((found) => found[1]);
  assert.deepEqual([...allStages].sort(), [...new Set(names)].sort());
  for (const stage of allStages) assert.ok(`stage.${stage}` in en, stage);
});

test("before the fog everything of both stages is asked, in the order of the plan", () => {
  const planned = job("planned", [["fan-on", "before fogging"], ["label-read", "before mixing or filling"], ["signs-down", "before closing"]]);
  assert.deepEqual(openItems(planned).map(({ item: { item: name } }) => name), ["label-read", "fan-on"]);
  assert.deepEqual(countItems(planned), { open: 2, all: 2 });
});

test("what the record decides is asked of nobody", () => {
  assert.deepEqual(openItems(job("holding", [["hold-passed", "before release"]])), []);
});

test("after the release only what belongs to the close is asked", () => {
  assert.deepEqual(openItems(job("released", [["label-read", "before mixing or filling"], ["signs-down", "before closing"]])).map(({ item: { item: name } }) => name), ["signs-down"]);
});

test("while nobody may go in nothing before the release is asked, and planned airing not before the hold is over", () => {
  const items = ["aired-out-as-planned", "haze-gone"];
  const asked = (elapsed_ms: number, may_release: boolean) => {
    const held = job("holding", items.map((one): [string, string] => [one, "before release"]));
    const shown = { ...held, items: items.map((one) => item(one, "before release")), hold: { elapsed_ms, floor_ms: 60_000, total_ms: 90_000, may_release, readings_needed: false, words: "" } };
    return openItems(shown as unknown as Job).map(({ item: { item: name } }) => name);
  };
  assert.deepEqual(asked(59_999, false), []);
  assert.deepEqual(asked(60_000, false), ["haze-gone"]);
  assert.deepEqual(asked(90_000, true), items);
});
