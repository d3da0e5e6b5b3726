// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import { readFileSync, readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import test from "node:test";
import { fill } from "../../src/i18n";
import { en as appEn } from "../../src/i18n/en";
import { es as appEs } from "../../src/i18n/es";
import { officeEn } from "../../src/i18n/office_en";
import { officeEs } from "../../src/i18n/office_es";
import { rulesEs } from "../../src/i18n/rules_es";

// The office's words are loaded later and join the app's: no key may stand in both.
const en: Record<string, string> = { ...appEn, ...officeEn };
const es: Record<string, string> = { ...appEs, ...Object.fromEntries(Object.entries(officeEs).filter(([key]) => !(key in rulesEs))) };

test("no key of the office is one of the app", () => {
  assert.deepEqual(Object.keys(officeEn).filter((key) => key in appEn), []);
});

const placeholders = (text: string) => [...text.matchAll(/\{(\w+)\}/g)].map((found) => found[1]).sort();

test("every catalogue has the same keys, and each text the same places to fill in", () => {
  assert.deepEqual(Object.keys(es).sort(), Object.keys(en).sort());
  for (const [key, text] of Object.entries(en)) assert.deepEqual(placeholders(es[key] ?? ""), placeholders(text), key);
});

test("no text is empty, and Spanish is not English", () => {
  const same = Object.entries(en).filter(([key, text]) => es[key] === text && /[a-z]{4,}.* .*[a-z]{4,}/.test(text));
  assert.deepEqual(same, []);
  for (const text of [...Object.values(en), ...Object.values(es)]) assert.ok(text.trim());
});

test("what is counted has a word for one and for many", () => {
  for (const key of Object.keys(en)) if (key.endsWith(".one")) assert.ok(key.replace(/one$/, "other") in en, key);
});

test("no page calls anything safe", () => {
  // "safety data sheet" and the safety officer are names of things; a promise is what must not stand here.
  for (const [key, text] of Object.entries({ ...en })) assert.doesNotMatch(text, /\bsafe\b|\bsafely\b/i, key);
  for (const [key, text] of Object.entries({ ...es })) assert.doesNotMatch(text, /\b(es|está|son) segur[oa]s?\b|sin peligro/i, key);
});

test("every kind of entry has a word", () => {
  const table = readFileSync(join("..", "src/desk/permissions.cpp"), "utf8");
  const kinds = [...table.matchAll(/^    \{"([a-z-]+)", /gm)].map(([, kind]) => kind ?? "");
  assert.ok(kinds.length > 40, `${kinds.length} kinds`);
  assert.deepEqual(kinds.filter((kind) => !(`entry.${kind}` in en)), []);
});

function sources(folder: string): string[] {
  return readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? sources(path) : /\.tsx?$/.test(name) ? [path] : [];
  });
}

test("every key is used somewhere", () => {
  const code = sources("src").filter((path) => !path.includes("i18n")).map((path) => readFileSync(path, "utf8")).join("\n");
  const used = (key: string) => {
    const group = key.slice(0, key.lastIndexOf("."));
    return code.includes(`"${key}"`) || code.includes(`"${group}"`) || code.includes("`" + group + ".${");
  };
  assert.deepEqual(Object.keys(en).filter((key) => !used(key)), []);
});

test("a name that is not given stays visible, and a sentence ends with one stop", () => {
  assert.equal(fill("{a} and {b}", { a: 1 }), "1 and {b}");
  assert.equal(fill("Until {a}. Then {a}", { a: "3:12 p.m." }), "Until 3:12 p.m. Then 3:12 p.m.");
  assert.equal(fill("{a}.", { a: 1 }), "1.");
});
