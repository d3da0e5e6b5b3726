// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";
import { itemWords, withItemWords, withoutExample } from "../../src/driveway/item_words";
import { catalogue, loadLanguage } from "../../src/i18n";
import { gateEs } from "../../src/i18n/gate_es";
import { preferences } from "../../src/settings/preferences";

/** The gate's own table: id, words, why. */
const rules = [...readFileSync("../docs/rules.md", "utf8").matchAll(/^\| `([a-z-]+)` \| (.*?) \| (.*?) \|/gm)].map(([, id = "", words = "", why = ""]) => ({ id, words, why }));

test("every item of the gate has its Spanish words and why, and no item else has", () => {
  assert.ok(rules.length > 60);
  const said = Object.keys(gateEs).filter((key) => key.startsWith("item.")).map((key) => key.slice("item.".length));
  assert.deepEqual(said.sort(), rules.map(({ id }) => id).sort());
  for (const { id, words } of rules) {
    assert.ok(gateEs[`itemWhy.${id}`], id);
    assert.equal(gateEs[`item.${id}`]?.includes("{}"), words.includes("{}"), id);
  }
});

test("what the job puts into an item is kept in Spanish", async () => {
  preferences.set({ ...preferences.value, language: "es" });
  await loadLanguage("es");
  const item = { item: "hold-passed", words: "Wait until 184 min have passed since fog-off, in full.", value: "184", why: "because" };
  assert.match(itemWords(item, "es").words, /^Espere hasta que hayan pasado 184 min/);
  assert.equal(itemWords(item, "es").language, "es");
  const gear = itemWords({ item: "gear-mixing", words: "Put on for mixing: goggles, $& gloves.", value: "goggles, $& gloves", why: "x" }, "es");
  assert.match(gear.words, /: goggles, \$& gloves\.$/);
});

test("the kind of respirator is said in Spanish, whichever way it is written", async () => {
  for (const value of ["half mask", "half-mask"]) {
    const item = { item: "respirator-facepiece", words: `Bring out this respirator or a higher one: ${value}.`, value, why: "y" };
    assert.match(itemWords(item, "es").words, /: media máscara\.$/);
  }
});

test("what is open is said with the words of the items", () => {
  const items = [{ item: "animals-out", words: "Take every animal out and count them; write 0 if there are none." }, { item: "haze-gone", words: "Look." }];
  assert.equal(withItemWords("2 items are open: animals-out (not met yet); of-a-later-version (not met yet)", items),
    "2 items are open: Take every animal out and count them; write 0 if there are none (not met yet); of-a-later-version (not met yet)");
});

test("a field with its unit beside it needs no example, in either language", () => {
  assert.equal(withoutExample("How much is in the tank, e.g. '20 fl oz'"), "How much is in the tank");
  assert.equal(withoutExample("Cuánto hay en el tanque, por ejemplo 20 fl oz"), "Cuánto hay en el tanque");
  assert.equal(withoutExample("How many entrances are posted"), "How many entrances are posted");
});

test("where the translation and the job do not fit together the desk's words stand, and English stays English", async () => {
  const other = { item: "hold-passed", words: "Wait.", why: "because" };
  assert.deepEqual(itemWords(other, "es"), { words: "Wait.", why: "because", language: "en" });
  assert.deepEqual(itemWords({ item: "of-a-later-version", words: "New.", why: "y" }, "es"), { words: "New.", why: "y", language: "en" });
  preferences.set({ ...preferences.value, language: "en" });
  await loadLanguage("en");
  assert.equal("item.label-read" in catalogue.value, false);
  assert.equal(itemWords({ item: "label-read", words: "Read the label through.", why: "z" }, "en").language, "en");
});
