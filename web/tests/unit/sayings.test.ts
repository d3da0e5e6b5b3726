// SPDX-License-Identifier: Apache-2.0
// What the desk, the engine and the server say, in Spanish: held against their sources, so that a new sentence of theirs
// cannot be forgotten, nor one stay here that nobody says any more.
import assert from "node:assert/strict";
import test from "node:test";
import { gateEs } from "../../src/i18n/gate_es";
import { pagesEn, saidEn } from "../../src/i18n/said_en";
import { saidEs } from "../../src/i18n/said_es";
import { sayingsEs, valuesEs } from "../../src/i18n/sayings_es";
import { rulesEs } from "../../src/i18n/rules_es";
import { calls, literals, sources } from "./help/sources";

const but = (...names: string[]) => (name: string) => !names.includes(name);
const only = (...names: string[]) => (name: string) => names.includes(name);

// Left out: files that a desk reads at the command line (CSV, calendars), and the rules, which have their own words.
const whole = [
  ...sources("desk", but("csv.cpp", "csv_table.cpp", "deliveries_csv.cpp", "departure_rules.cpp", "desk_imports.cpp", "due.cpp", "imports_csv.cpp", "recorded_request.cpp")),
  ...sources("gate", only("release.cpp")),
  ...sources("plan", only("make_plan.cpp", "request_reader.cpp", "table_reader.cpp", "table_reader.hpp", "warnings.cpp")),
  ...sources("dose", but("origin_fit.cpp")),
  ...sources("air", only("inverse.cpp", "zone.cpp", "peroxide.cpp")),
  ...sources("quantity", only("number_text.cpp", "read_value.cpp", "readers.cpp")),
  ...sources("label", only("agreement.cpp", "chemistry.cpp", "reading.cpp", "rows.hpp", "rules.cpp", "syntax.cpp", "text.cpp", "values.cpp", "values.hpp")),
  ...sources("stock", only("shelf.cpp")),
  ...sources("audit", only("chart_rules.cpp", "job_rules.cpp", "retention.cpp", "stock_rules.cpp")),
  ...sources("book", only("verifier.cpp")),
  ...sources("office", only("audit_filters.cpp")),
];
/** The tables of a profile, which also describe their members: those are sentences of their own. */
const tables = sources("label", (name) => name.endsWith("_table.cpp")).flatMap(literals).filter((text) => /^[a-z{]/.test(text)).map((text) => JSON.stringify(text));
// Beside what these say they describe themselves to programs.
const answers = [...sources("asking", () => true), ...sources("server", but("accounts.cpp", "private_file.cpp"))]
  .flatMap((text) => calls(text, ["fail", "Error", "problem_details"]));

/** What people do not meet on a page. */
const notThere = [
  /\/api\/|JSON|UUIDv7|docs\/|--host|--key|`next`|vessel=C1/, // said to programs, and to who starts the server
  /^(an entry has id|a batch has 500|send (salt|it in parts)|the entry has no id|give each entry an id|name items, or event|there is no such member of|ask for record, )/,
  /^(encountered end-of-file|control characters|Error while parsing|printed limit|gear for one kind of work|mixing step)$/, // looked for, or a heading of docs/labels.md
  /^(strength of|trade per cent|fogger: |rate band)/, // where, not what
  /^(\{\}\{\} of|\{\} \{\} \{\} days ago|\{\} \{\} \(\{\} to)/, // the keys have them with their parts
];

const plain = (text: string) => text.replace(/\{[^{}]*\}/g, "{}").trim();
const sentences = (texts: string[]) => texts.flatMap(literals).map(plain).filter((text) => text.includes(" ") && (text.match(/[a-z]{2,}/g) ?? []).length > 1);
// Quotes may be put around a value before it goes in.
const keys = [...Object.keys(sayingsEs), ...Object.keys(valuesEs), ...Object.keys(gateEs)].flatMap((key) => [key, key.replaceAll('"{}"', "{}")]);

test("every sentence of the sources has its Spanish", () => {
  const missing = [...new Set(sentences([...whole, ...tables, ...answers]))]
    .filter((text) => !notThere.some((one) => one.test(text)) && !keys.some((key) => key.includes(text)));
  assert.deepEqual(missing, []);
});

test("every Spanish sentence still has a source", () => {
  const layers = ["air", "asking", "audit", "book", "browser", "desk", "dose", "gate", "label", "office", "plan", "quantity", "server", "stock"];
  const said = layers.flatMap((layer) => sources(layer, () => true)).flatMap(literals).map(plain).join("\n");
  const parts = [...Object.keys(sayingsEs), ...Object.keys(valuesEs)].flatMap((key) => key.split(/"?\{\}"?| and (?=fogger)/)).map((part) => part.trim()).filter((part) => /[a-z]{4}/.test(part));
  assert.deepEqual(parts.filter((part) => !said.includes(part)), []);
});

/** What is said as to somebody at a command line. */
const toCommandLine = /fogwright [a-z]|(^|[\s('])--[a-z]|job (check|run|start) /;

test("no page sends anybody to the command line", () => {
  const rules = [...sources("desk", only("departure_rules.cpp")), ...sources("audit", (name) => name.endsWith("_rules.cpp"))];
  const found = [...new Set(sentences([...whole, ...tables, ...answers, ...rules]))]
    .filter((text) => toCommandLine.test(text) && !notThere.some((one) => one.test(text)) && !/audit retention$/.test(text));
  assert.ok(found.length > 30, `${found.length} found`);
  assert.deepEqual(found.filter((text) => !saidEn(text)), []);
  for (const [key, page] of Object.entries(pagesEn)) assert.ok(found.includes(key), `nobody says: ${key}`), assert.doesNotMatch(page, toCommandLine);
  for (const [english, spanish] of Object.entries(sayingsEs)) assert.doesNotMatch(spanish, toCommandLine, english);
  for (const [id, spanish] of Object.entries(rulesEs)) assert.doesNotMatch(spanish, toCommandLine, id);
  assert.equal(saidEn("take C3, or say why not, e.g. --reason 'C3 is frozen in'"), "take C3, or say why not, e.g. C3 is frozen in");
  assert.equal(saidEn("the eyewash is not tested"), undefined);
});

const fill = (form: string, values: string[]) => values.reduce((text, value) => text.replace("{}", () => value), form);

test("each form is read as itself and keeps what a case puts in", () => {
  for (const [english, spanish] of Object.entries(sayingsEs)) {
    const values = [...english.matchAll(/\{\}/g)].map((_, at) => `X${at}`);
    let next = 0;
    const expected = spanish.replace(/\{(\d?)\}/g, (_, at: string) => values[at ? Number(at) : next++] ?? "?");
    assert.equal(saidEs(fill(english, values)), expected, english);
  }
});

test("what a case puts in is all there in Spanish, once", () => {
  for (const [english, spanish] of Object.entries({ ...sayingsEs, ...valuesEs })) {
    const places = [...spanish.matchAll(/\{(\d?)\}/g)].map(([, at]) => at);
    const count = english.split("{}").length - 1;
    if (/^(Splitting by|meet them with|take \{\}, or say)/.test(english)) continue; // these name one thing twice
    if (places.some((at) => at !== "")) assert.deepEqual([...places].sort(), Array.from({ length: count }, (_, at) => String(at)), english);
    else assert.equal(places.length, count, english);
  }
});

test("no Spanish sentence calls anything safe", () => {
  for (const text of Object.values(sayingsEs)) assert.doesNotMatch(text, /segur[oa]s?\b/i);
});

const examples: [string, string][] = [
  ["sedge has no fit-test that holds on 2026-03-04", "sedge no tiene vigente el 2026-03-04: prueba de ajuste"],
  ["a half mask is less than the full facepiece that the plan asks for", "este respirador es inferior al que pide el plan: media máscara; el plan pide: máscara completa"],
  ["fit-test is not met: sedge has no fit test for Saltwing 40, size M, that holds on 2026-03-04",
    "prueba de ajuste: no se cumple: sedge no tiene una prueba de ajuste vigente el 2026-03-04 para Saltwing 40, talla M"],
  ["2 items are open: label-read (not met yet); eyewash (it was met on an earlier day)",
    "2 requisitos están abiertos: Lea la etiqueta completa: sin cumplir aún; Ponga el lavaojos a mano y pruébelo: se cumplió un día anterior"],
  ["everyone-out: not met yet", "Que salgan todos; cuéntelos al salir: sin cumplir aún"],
  ["cannot read \"2x00\" as a floor area: the unit \"x00\" is not known here", "no se entiende \"2x00\" como una superficie: la unidad \"x00\" no se conoce aquí"],
  ["the hold runs for 41 min more: 120 min after fog-off must pass in full", "la espera dura 41 min más: tienen que pasar 120 min completos desde el fin de la niebla"],
  ["J7 used +31.5 % against its plan, beyond the limits of technician sedge (-8.1 to 9.2 %, 22 points) and fogger F1 (-7.0 to 9.9 %, 24 points)",
    "J7 usó +31.5 % frente a su plan, fuera de los límites de: técnico sedge (de -8.1 a 9.2 %, 22 puntos) y nebulizador F1 (de -7.0 a 9.9 %, 24 puntos)"],
  ["density: cannot read \"heavy\" as a density: it does not start with a number", "density: no se entiende \"heavy\" como una densidad: no empieza con un número"],
  ["signal_word: \"loud\" is not a word known here", "signal_word: \"loud\" no es una palabra conocida aquí"],
  ["the label of Mirkholm 9 does not name duct board as a surface", "la etiqueta de Mirkholm 9 no nombra esta superficie: panel de fibra"],
  ["1 item is open: fit-test (sedge has no fit test for Saltwing 40, size M, that holds on 2026-03-04)",
    "1 requisito está abierto: Muestre una prueba de ajuste vigente de esta misma pieza facial, modelo y talla: sedge no tiene una prueba de ajuste vigente el 2026-03-04 para Saltwing 40, talla M"],
  ["lot-noted is not met: C3 hold 12 fl oz, and the plan can take 14 fl oz", "Anote el lote del envase: no se cumple: C3: hay 12 fl oz, y el plan puede necesitar 14 fl oz"],
  ["mix-in-life is not met: the life of B2 is over, or ends while it is fogged", "Use la mezcla dentro de los … min de mezclarla: no se cumple: la vida de B2 terminó, o termina mientras se nebuliza"],
  ["corrects an earlier entry: phone dead or lost", "corrige una entrada anterior: phone dead or lost"],
  ["corrects entry 41 (container-received): two digits were swapped", "corrige la entrada 41 (container-received): two digits were swapped"],
  ["why it is put right is missing", "falta por qué se corrige"],
  ["C3 held 2 fl oz less than the book said", "C3 tenía 2 fl oz menos de lo que decía el libro"],
  ["mixing factor of -1 per hour lies outside the air model", "este dato queda fuera del modelo del aire: factor de mezcla, -1 por hora"],
  ["it takes the role technician or safety-officer", "hace falta la función de técnico o responsable de seguridad"],
  ["no fogger is called \"cartridge\"", "no hay nada con el nombre \"cartridge\" (nebulizador)"],
  ["the floor area is missing", "falta the floor area"],
];

test("sentences as they are said", () => {
  for (const [english, spanish] of examples) assert.equal(saidEs(english), spanish);
  assert.equal(saidEs("a sentence of a later version: nobody knows it"), undefined);
  // A label may be called like anything.
  assert.equal(saidEs("Fenmist {} is no pattern"), undefined);
});
