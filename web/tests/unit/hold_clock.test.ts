// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import test from "node:test";
import { holdLeft } from "../../src/driveway/hold_clock";

const hold = { elapsed_ms: 0, floor_ms: 1_800_000, total_ms: 10_920_000, may_release: false, words: "" };
const answer = { hold, wall: 1_000_000, running: 5_000 };

test("between two answers the hold counts down, the floor first", () => {
  assert.deepEqual(holdLeft(answer, { wall: 1_060_000, running: 65_000 }), { left_ms: 1_740_000, ends_ms: 2_800_000, part: "floor" });
  const later = { ...answer, hold: { ...hold, elapsed_ms: 1_800_000 } };
  assert.equal(holdLeft(later, { wall: 1_000_000, running: 5_000 }).part, "total");
  assert.equal(holdLeft(later, { wall: 1_000_000, running: 5_000 }).left_ms, 9_120_000);
});

test("whichever clock ran ahead, the figure never gets shorter than both allow", () => {
  const slept = holdLeft(answer, { wall: 1_000_000 + 3_600_000, running: 5_000 + 60_000 });
  assert.equal(slept.left_ms, 1_740_000);
  const turnedBack = holdLeft(answer, { wall: 0, running: 5_000 + 60_000 });
  assert.equal(turnedBack.left_ms, 1_800_000);
});
