// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";
import { advance, goOn, longestStretchMs, marksPassed, pause, resume, startTimer, stretchText, timeText } from "../../src/driveway/fog_timer";

const at = (wall: number, running = wall, hidden = false) => ({ wall, running, hidden });
const begun = () => startTimer("e1", "system 1", "hall", at(0));

test("the timer counts while the valve is open, and not while it is shut", () => {
  let timer = advance(begun(), at(12_000));
  timer = pause(timer, at(20_000));
  timer = advance(timer, at(50_000));
  timer = goOn(timer, at(60_000));
  timer = advance(timer, at(70_000));
  assert.equal(timer.elapsed_ms, 30_000);
  assert.equal(timer.unseen_ms, 0);
});

test("fog that came out while the phone slept is counted, and said", () => {
  const timer = advance(begun(), at(45_000, 5_000, true));
  assert.equal(timer.elapsed_ms, 45_000);
  assert.equal(timer.unseen_ms, 40_000);
});

test("a clock that is turned while somebody looks at the page bends nothing", () => {
  assert.equal(advance(begun(), at(3_600_000, 5_000)).elapsed_ms, 5_000);
  assert.equal(advance(begun(), at(-3_600_000, 5_000)).elapsed_ms, 5_000);
});

test("a clock that is turned back while the page is out of sight takes nothing away", () => {
  assert.equal(advance(begun(), at(-3_600_000, 5_000, true)).elapsed_ms, 5_000);
});

test("after a reload the time in between counts, since the valve was open", () => {
  const kept = advance(begun(), at(10_000));
  const timer = resume(kept, at(25_000, 400));
  assert.equal(timer.elapsed_ms, 25_000);
  assert.equal(advance(timer, at(26_000, 1_400)).elapsed_ms, 26_000);
  assert.equal(resume(begun(), at(900, 400)).elapsed_ms, 900, "however short");
});

test("a timer that was shut stays where it was over a reload", () => {
  assert.equal(resume(pause(begun(), at(10_000)), at(99_000, 400)).elapsed_ms, 10_000);
});

test("each mark is told once, also when several pass at a time", () => {
  const planned = { seconds: 42, band_s: [36, 48] as [number, number] };
  assert.deepEqual(marksPassed(35_900, 36_000, planned), ["low"]);
  assert.deepEqual(marksPassed(36_000, 41_999, planned), []);
  assert.deepEqual(marksPassed(0, 60_000, planned), ["low", "target", "high"]);
});

test("what is recorded as fogged was fogged", () => assert.equal(timeText(42_399), "42.3 s"));

test("a stretch is told as the desk takes it: none where nothing came out, and no longer than it takes", () => {
  assert.equal(stretchText(begun()), null);
  assert.equal(stretchText(advance(begun(), at(99))), null);
  assert.equal(stretchText(advance(begun(), at(42_399))), "42.3 s");
  assert.equal(stretchText(advance(begun(), at(9 * 3_600_000))), "21600.0 s");
});

test("the longest stretch is the desk's", () => {
  const [, hours] = /longest_stretch_ms = (\d+) \* 3'600'000;/.exec(readFileSync("../src/desk/job_document.hpp", "utf8")) ?? [];
  assert.equal(longestStretchMs, Number(hours) * 3_600_000);
});
