// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";
import { Refused } from "../../src/api/http";
import { qrPath } from "../../src/components/office/qr";
import { rulesEs } from "../../src/i18n/rules_es";
import { compareText } from "../../src/office/compare_text";
import { newestOf, standingOf } from "../../src/office/credentials";
import { daysTo, endOfDay, lastDay } from "../../src/office/days";
import { gs1Day, readDelivery } from "../../src/office/delivery_code";
import { dueNow, type Holdings } from "../../src/office/due";
import { elapsed } from "../../src/office/elapsed";
import { labelFaults } from "../../src/office/fault_lines";
import { factsOf } from "../../src/office/entry_facts";
import { itemName } from "../../src/data/item_names";
import { driftAt, driftText } from "../../src/office/foggers";
import { stepsOf } from "../../src/office/life";
import { compareCheckpoints, readCheckpoint } from "../../src/office/note_text";
import { shelfRows } from "../../src/office/shelf";
import type { Credential, EntryRow, Movement, StockLine, VesselRow } from "../../src/office/shapes";
import { levels } from "../../src/office/stock_history";
import { temperature } from "../../src/office/temperature";

const at = (iso: string) => Date.parse(iso);

test("the last day is the last whole one, so that nobody uses product on the day it ends", () => {
  assert.equal(new Date(lastDay(at("2026-08-01T14:30:02Z"))).toISOString().slice(0, 10), "2026-07-31");
  assert.equal(new Date(lastDay(at("2027-02-01T00:00:00Z"))).toISOString().slice(0, 10), "2027-01-31");
  assert.equal(daysTo(endOfDay("2026-11-30"), at("2026-11-30T23:00:00Z")), 0);
  assert.ok(daysTo(endOfDay("2026-11-30"), at("2026-12-01T00:00:00Z")) < 0);
});

test("a credential lapses with its last day, and a date that cannot be read has lapsed", () => {
  const of = (expires?: string): Credential => ({ entry: "1", what: "licence", issued: "2026-01-01", ...(expires ? { expires } : {}) });
  const now = at("2026-11-27T12:00:00Z");
  assert.equal(standingOf(of("2026-11-27"), now), "soon");
  assert.equal(standingOf(of("2026-11-26"), now), "lapsed");
  assert.equal(standingOf(of("2026-12-31"), now), "holds");
  assert.equal(standingOf(of("soon"), now), "lapsed");
  assert.equal(standingOf(of(), now), "open");
  assert.equal(standingOf({ ...of("2027-12-31"), withdrawn: "lost" }, now), "withdrawn");
});

test("a renewed credential takes the place of the old one, another facepiece does not", () => {
  const fit = (entry: string, expires: string, model: string): Credential => ({ entry, what: "fit-test", issued: "2026-01-01", expires, facepiece: "half-mask", facepiece_model: model, facepiece_size: "M" });
  const kept = newestOf([fit("1", "2026-02-01", "Saltwing 40"), fit("2", "2027-02-01", "Saltwing 40"), fit("3", "2026-03-01", "Saltwing 20")]);
  assert.deepEqual(kept.map((one) => one.entry), ["2", "3"]);
});

const none: Holdings = { crew: [], stock: [], vessels: [], foggers: [], cartridges: [], places: [] };

test("what is over comes before what is soon", () => {
  const now = at("2026-11-27T12:00:00Z");
  const vessel = (id: string, until: string, usable: boolean) => ({ id, item: "fenmist-rtu", lot: "FR-1", place: "heron", batch: false, size_ul: 2, remaining_ul: 1, usable, opened_ms: null, usable_until_ms: at(until) }) as VesselRow;
  const due = dueNow({ ...none, vessels: [vessel("C1", "2026-12-10T00:00:00Z", true), vessel("C2", "2026-11-01T00:00:00Z", false), vessel("C3", "2027-11-01T00:00:00Z", true)] }, now);
  assert.deepEqual(due.map((one) => [one.words, one.values.id]), [["due.past", "C2"], ["due.ends", "C1"]]);
});

test("a cartridge is due when its schedule is used up, a fogger when nobody tested it or it drifts", () => {
  const day = (flow_ul_min: number) => ({ on: "2026-03-02", flow_ul_min, low_ul_min: 1, high_ul_min: 2, runs: 3, spread_ppm: 1 });
  const cartridge = (used_minutes: number) => ({ cartridge: `y${used_minutes}`, used_minutes, schedule_minutes: 480, active: true, model: "", words: [], basis: "" });
  const fogger = (name: string, flows: number[]) => ({ fogger: name, active: true, tests: flows.map(day) });
  const due = dueNow({ ...none, cartridges: [cartridge(479), cartridge(480)], foggers: [fogger("new", []), fogger("gust", [180_000, 198_001]), fogger("calm", [180_000, 198_000])] }, 0);
  assert.deepEqual(due.map((one) => one.words), ["due.cartridge", "due.untested", "due.drift"]);
});

test("drift is flow now over flow before, minus one (docs/stock.md), and is shown away from nothing", () => {
  const tests = [180_000, 171_000].map((flow_ul_min) => ({ on: "", flow_ul_min, low_ul_min: 0, high_ul_min: 0, runs: 3, spread_ppm: 0 }));
  assert.equal(driftAt(tests, 0), null);
  assert.ok(Math.abs((driftAt(tests, 1) ?? 0) + 0.05) < 1e-12);
  assert.equal(driftText(-0.1001, "en"), "-10.1 %");
  assert.equal(driftText(0.05, "en"), "+5 %");
});

test("a shelf takes together what is of one place, item and lot, and ends with its first container", () => {
  const vessel = (id: string, lot: string, until: number, usable: boolean) => ({ id, item: "fenmist-rtu", lot, place: "heron", batch: false, size_ul: 10, remaining_ul: 4, usable, opened_ms: null, usable_until_ms: until }) as VesselRow;
  const rows = shelfRows([vessel("C1", "A", 20, true), vessel("C2", "A", 10, false), vessel("C3", "B", 5, true)], [{ item: "fenmist-rtu", days_of_cover: 12 } as StockLine]);
  assert.deepEqual(rows.map(({ lot, ids, leftUl, usableUl, usableUntilMs, coverDays }) => [lot, ids, leftUl, usableUl, usableUntilMs, coverDays]), [["B", ["C3"], 4, 4, 5, 12], ["A", ["C1", "C2"], 8, 4, 10, 12]]);
});

test("levels add up movements in the order of time, those of one moment in one step", () => {
  const moved = (at_ms: number, seq: number, ul: number) => ({ at_ms, seq, ul, what: "", actor: "" }) as Movement;
  assert.deepEqual(levels([moved(20, 3, -4), moved(10, 1, 10), moved(10, 2, 5)]), [{ ms: 10, ul: 15 }, { ms: 20, ul: 11 }]);
});

test("two texts are compared by their longest common lines", () => {
  const pairs = compareText("a\nb\nc\nd", "a\nB\nc\nd\ne");
  assert.deepEqual(pairs.map(({ left, right, same }) => [left?.text, right?.text, same]), [["a", "a", true], ["b", "B", false], ["c", "c", true], ["d", "d", true], [undefined, "e", false]]);
  assert.ok(compareText("x\ny", "x\ny").every((pair) => pair.same));
  assert.deepEqual(pairs.flatMap(({ right }) => right?.text ?? []).join("\n"), "a\nB\nc\nd\ne");
});

test("faults of a label stand at the line that the desk names", () => {
  const told = new Refused(422, { detail: "one", where: "text:12:3", hint: "write it so", faults: [{ detail: "one", where: "text:12:3", hint: "write it so" }, { detail: "two", where: "name" }] });
  assert.deepEqual(labelFaults(told).map(({ line, column, words }) => [line, column, words]), [[12, 3, "one"], [null, null, "two"]]);
  assert.equal(labelFaults(new Refused(422, { detail: "one", where: "text:7" }))[0]?.line, 7);
  assert.deepEqual(labelFaults(new Error("no refusal")), []);
});

// GS1 General Specifications, application identifiers (01), (10), (17): from memory.
test("lot and last day are read out of a code by GS1's application identifiers, and only out of one", () => {
  assert.deepEqual(readDelivery("(01)09506000134352(17)270131(10)FR-2601"), { text: "(01)09506000134352(17)270131(10)FR-2601", lot: "FR-2601", expires: "2027-01-31" });
  assert.equal(readDelivery("]d2010950600013435210FR-2601\u001d17270200").lot, "FR-2601");
  assert.equal(readDelivery("]d2010950600013435210FR-2601\u001d17270200").expires, "2027-02-28");
  assert.deepEqual(readDelivery(" C12 "), { text: "C12" });
  assert.equal(gs1Day("271331"), undefined);
  assert.equal(gs1Day("270230"), undefined);
  assert.equal(gs1Day("280200"), "2028-02-29");
});

test("many entries of one kind are one step of a job's line, and steps tell the time between", () => {
  const entry = (seq: number, kind: string, happened_ms: number) => ({ seq, kind, happened_ms }) as EntryRow;
  const steps = stepsOf([entry(1, "job-planned", 0), entry(2, "requirement-met", 10), entry(3, "requirement-met", 20), entry(4, "fog-started", 50)]);
  assert.deepEqual(steps.map(({ kind, entries, afterMs }) => [kind, entries.length, afterMs]), [["job-planned", 1, null], ["requirement-met", 2, 10], ["fog-started", 1, 30]]);
});

// The forms are those of C2SP signed-note and tlog-checkpoint (c2sp.org).
test("a checkpoint is read by its lines, and two are compared by what they say", () => {
  const note = "quillfen.example/tarn-vale\n1414\nlGcA=\n\n— quillfen.example/tarn-vale nIYh\n— office.example/witness AbCd\n";
  const now = readCheckpoint(note);
  assert.deepEqual(now, { origin: "quillfen.example/tarn-vale", size: 1414, root: "lGcA=", signers: ["quillfen.example/tarn-vale", "office.example/witness"] });
  assert.ok(now);
  assert.equal(readCheckpoint("anything else"), null);
  assert.equal(compareCheckpoints(now, now), "same");
  assert.equal(compareCheckpoints(now, { ...now, root: "other" }), "changed");
  assert.equal(compareCheckpoints(now, { ...now, size: 1413, root: "other" }), "older");
  assert.equal(compareCheckpoints(now, { ...now, size: 1415 }), "newer");
  assert.equal(compareCheckpoints(now, { ...now, origin: "another.example" }), "other-book");
});

test("the audit's rules have Spanish words, each of them, and no others", () => {
  const ids = [...readFileSync("../docs/departures.md", "utf8").matchAll(/^\| `([\w-]+)` \|/gm)].map((found) => found[1]);
  assert.ok(ids.length > 40);
  assert.deepEqual(Object.keys(rulesEs).sort(), ids.flatMap((id) => [`remedy.${id}`, `rule.${id}`]).sort());
});

test("temperatures by the exact offsets: 293.15 K is 20 °C and 68 °F (NIST SP 811)", () => {
  assert.equal(temperature(293_150, "metric", "en"), "20 °C");
  assert.equal(temperature(293_150, "us", "en"), "68 °F");
});

test("elapsed time carries its sign where a clock was turned", () => {
  assert.equal(elapsed(42_900), "42 s");
  assert.equal(elapsed(7_500_000), "2 h 5 min");
  assert.equal(elapsed(-190_000), "−3 min 10 s");
  assert.equal(elapsed(3 * 86_400_000), "3 d 0 h");
});

test("a part of a product goes by the product's name and its own, and what is not known by its key", () => {
  const names = new Map([["brackwater-20", "Brackwater 20"]]);
  assert.equal(itemName(names, "brackwater-20/Part A/concentrate"), "Brackwater 20, Part A/concentrate");
  assert.equal(itemName(names, "brackwater-20"), "Brackwater 20");
  assert.equal(itemName(names, "fenmist-rtu"), "fenmist-rtu");
});

test("an entry tells the words of its item, and what was typed instead of the figure that was read from it", () => {
  const words = { units: "us", language: "en", word: (group: string, name: string) => `${group}.${name}`, tn: (name: string, n: number) => `${name} ${n}`, itemWords: new Map([["volume-after", "Measure what is left."]]) } as const;
  const entry = (kind: string, body: object) => ({ kind, body }) as unknown as EntryRow;
  assert.equal(factsOf(entry("requirement-met", { requirement: "volume-after", evidence: { typed: "190 mL", ul: 190_000 } }), words), "Measure what is left, 190 mL");
  assert.equal(factsOf(entry("requirement-met", { requirement: "label-read", evidence: { confirmed: true } }), words), "label-read");
  assert.equal(factsOf(entry("start-refused", { missing: [{}, {}] }), words), "life.openItems 2");
  assert.equal(factsOf(entry("fog-ended", { used_ul: 29_574, measured: "by-time" }), words), "1\u00a0fl\u00a0oz, measured.by-time");
});

test("a code has four modules of quiet zone around (ISO/IEC 18004)", () => {
  assert.equal(qrPath(["10", "01"]), "M4 4h1v1h-1zM5 5h1v1h-1z");
});
