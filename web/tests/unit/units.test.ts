// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import test from "node:test";
import { area, countdown, dayAndTime, microlitresPerFluidOunce, minutes, roundTo, squareMillimetresPerSquareFoot, timeOfDay, typed, volume, withUnit } from "../../src/settings/units";

// NIST SP 811 (2008), appendix B.8: fluid ounce (US) 2.957 353 E-05 m3, gallon (US) 3.785 412 E-03 m3, square foot
// 9.290 304 E-02 m2 (exact).
test("the factors are those that are published", () => {
  assert.equal((microlitresPerFluidOunce / 1e9).toPrecision(7), "0.00002957353");
  assert.equal(((microlitresPerFluidOunce * 128) / 1e9).toPrecision(7), "0.003785412");
  assert.equal((squareMillimetresPerSquareFoot / 1e6).toPrecision(7), "0.09290304");
});

test("what must suffice goes up, what is left goes down", () => {
  const ul = 12.34 * microlitresPerFluidOunce;
  assert.equal(volume(ul, "us", "up", "en"), "12.4\u00a0fl\u00a0oz");
  assert.equal(volume(ul, "us", "down", "en"), "12.3\u00a0fl\u00a0oz");
  assert.equal(volume(ul, "us", "up", "es"), "12.4\u00a0fl\u00a0oz"); // as it can be typed
  assert.equal(area(2_400 * 92_903.04, "us", "es"), "2,400\u00a0sq\u00a0ft");
  assert.equal(volume(364_935, "metric", "up", "en"), "365\u00a0mL");
  assert.equal(volume(364_935, "metric", "down", "en"), "364\u00a0mL");
  assert.equal(volume(2 * 128 * microlitresPerFluidOunce, "us", "down", "en"), "2\u00a0gal");
});

test("no line ends between a figure and its unit, and one that is copied is read all the same", () => {
  for (const shown of [volume(12.34 * microlitresPerFluidOunce, "us", "up", "en"), area(2_400 * 92_903.04, "us", "en"), minutes(182)]) assert.doesNotMatch(shown, / /);
  assert.equal(typed(volume(12.34 * microlitresPerFluidOunce, "us", "up", "en")), "12.4 fl oz");
  assert.equal(withUnit("12.4\u00a0fl\u00a0oz", "mL"), "12.4 fl oz");
  assert.equal(dayAndTime(Date.UTC(2026, 4, 12, 16, 50), "America/Chicago", "en"), "Tue,\u00a0May\u00a012, 11:50\u00a0AM");
});

test("an exact figure is not pushed over by binary noise", () => {
  assert.equal(roundTo(0.1 + 0.2, 1, "up"), 0.3);
  assert.equal(roundTo(12.3, 1, "up"), 12.3);
  assert.equal(roundTo(12.3, 1, "down"), 12.3);
});

test("a bare number takes the unit of the field, a typed unit stays", () => {
  assert.equal(withUnit(" 2400 ", "sq ft"), "2400 sq ft");
  assert.equal(withUnit("220 m2", "sq ft"), "220 m2");
});

test("a time that must still pass is never shown shorter", () => {
  assert.equal(countdown(1), "0:01");
  assert.equal(countdown(60_001), "1:01");
  assert.equal(countdown(2 * 3_600_000), "2:00:00");
  assert.equal(countdown(-5), "0:00");
  assert.equal(minutes(182), "3\u00a0h\u00a02\u00a0min");
});

// IANA time zone database: America/Chicago is UTC-6 in winter, UTC-5 from the second Sunday of March, 2026-03-08.
test("the time of day is the one at the job's place", () => {
  assert.equal(timeOfDay(Date.UTC(2026, 2, 7, 20, 5), "America/Chicago", "en-US"), "2:05\u00a0PM");
  assert.equal(timeOfDay(Date.UTC(2026, 2, 8, 20, 5), "America/Chicago", "en-US"), "3:05\u00a0PM");
});

test("a gallon of the record, counted in whole microlitres, is 128 fl oz on every side", () => {
  for (const side of ["up", "down", "nearest"] as const) assert.equal(volume(3_785_411, "us", side, "en"), "128\u00a0fl\u00a0oz");
  assert.equal(volume(3_785_000, "us", "down", "en"), "127.9\u00a0fl\u00a0oz");
  // 14 fl oz are 414,029.4 µL and drawn as 414,030.
  assert.equal(volume(3_785_411 - 414_030, "us", "down", "en"), "114\u00a0fl\u00a0oz");
  assert.equal(volume(114 * microlitresPerFluidOunce + 5, "us", "up", "en"), "114.1\u00a0fl\u00a0oz");
});
