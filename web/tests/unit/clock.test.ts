// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import test from "node:test";
import { Clock } from "../../src/data/clock";

const minute = 60_000;

function made() {
  const at = { wall: 1_772_460_000_000, running: 5_000 };
  const clock = new Clock({ now: () => at.wall, running: () => at.running });
  const pass = (ms: number) => ((at.wall += ms), (at.running += ms));
  const sleep = (ms: number) => (at.wall += ms);
  return { at, clock, pass, sleep };
}

test("while nothing odd happens the running clock stays the same one", () => {
  const { clock, pass } = made();
  const before = clock.moment();
  pass(90 * minute);
  const after = clock.moment();
  assert.equal(after.boot, before.boot);
  assert.equal(after.uptime_ms - before.uptime_ms, 90 * minute);
  assert.equal(clock.unexplainedMs.value, 0);
});

test("after sleep with no signal a hold counts only what the running clock saw", () => {
  const { clock, pass, sleep } = made();
  clock.compared(0);
  const before = clock.moment();
  pass(10 * minute);
  sleep(60 * minute);
  const after = clock.moment();
  assert.equal(after.boot, before.boot);
  assert.equal(after.uptime_ms - before.uptime_ms, 10 * minute);
  assert.equal(clock.unexplainedMs.value, 60 * minute);
});

test("when the office's clock agreed before the sleep and after it, the calendar counts", () => {
  const { clock, sleep } = made();
  clock.compared(1_000);
  const before = clock.moment();
  sleep(60 * minute);
  clock.compared(1_000);
  assert.notEqual(clock.moment().boot, before.boot);
  assert.equal(clock.unexplainedMs.value, 0);
});

test("a calendar that was wrong before and was set right does not shorten a hold", () => {
  const { clock, sleep } = made();
  clock.compared(-60 * minute); // an hour behind
  const before = clock.moment();
  sleep(60 * minute); // set right, by itself or by somebody
  clock.compared(0);
  clock.compared(0);
  assert.equal(clock.moment().boot, before.boot);
});

test("a clock that was turned forward, or back, leaves the running one in charge", () => {
  for (const turn of [120 * minute, -120 * minute]) {
    const { clock, sleep } = made();
    clock.compared(0);
    const before = clock.moment();
    sleep(turn);
    clock.compared(turn); // the office sees it
    assert.equal(clock.moment().boot, before.boot);
    assert.equal(clock.unexplainedMs.value, turn);
  }
});
