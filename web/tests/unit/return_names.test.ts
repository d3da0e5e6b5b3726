// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import test from "node:test";
import { facepiecesOf } from "../../src/driveway/facepieces";
import { shownName } from "../../src/driveway/return_names";
import { loadLanguage } from "../../src/i18n";
import { preferences } from "../../src/settings/preferences";

test("a return that nobody named has its number in the language in use, and a given name stays", async () => {
  assert.equal(shownName("return 2"), "return 2");
  preferences.set({ ...preferences.value, language: "es" });
  await loadLanguage("es");
  assert.deepEqual(["return 2", "system 11", "return 2 upstairs", "Hall"].map(shownName), ["rejilla 2", "sistema 11", "return 2 upstairs", "Hall"]);
  preferences.set({ ...preferences.value, language: "en" });
  await loadLanguage("en");
});

test("the respirators to choose from are those of the fit tests, each once, none that was withdrawn", () => {
  const fitTest = { what: "fit-test", facepiece: "half-mask", facepiece_model: "Saltwing 40", facepiece_size: "M" };
  const credentials = [fitTest, fitTest, { ...fitTest, facepiece_size: "L", withdrawn: true }, { what: "licence", number: "TV-104" }, { ...fitTest, facepiece: "full-facepiece" }];
  assert.deepEqual(facepiecesOf({ active: true, handle: "sedge", roles: [], credentials }), ["half-mask, Saltwing 40, M", "full-facepiece, Saltwing 40, M"]);
  assert.deepEqual(facepiecesOf(undefined), []);
});
