// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import test from "node:test";
import { emptyDraft, isReady, newReturn, siteOf } from "../../src/driveway/plan_draft";
import { containerOf } from "../../src/driveway/scan_text";

test("an area and a number of returns are a site", () => {
  const draft = { ...emptyDraft(), product: "fenmist-rtu", area: "2400" };
  const three = { ...draft, returns: [...draft.returns, newReturn(draft.returns), { key: 9, name: "", face: "" }] };
  assert.deepEqual(siteOf(three, "us"), { system: [{ area: "2400 sq ft", returns: 3 }], site: {} });
  assert.ok(isReady(three));
  assert.ok(!isReady({ ...three, area: "" }));
});

test("the sizes of all returns split the seconds by size, some of them do not", () => {
  const returns = [{ key: 1, name: "hall", face: "20x30" }, { key: 2, name: "", face: "14x14 in" }];
  const draft = { ...emptyDraft(), product: "p", area: "120 m2", returns, animals: true, entrances: "3" };
  assert.deepEqual(siteOf(draft, "us"), {
    split: "face",
    system: [{ area: "120 m2", return: [{ name: "hall", face: "20x30 in" }, { name: "return 2", face: "14x14 in" }] }],
    site: { animals: true, entrances: 3 },
  });
  assert.equal("split" in siteOf({ ...draft, returns: [returns[0]!, { key: 2, name: "den", face: "" }] }, "us"), false);
});

test("the code on a container is its id, alone or after what the label's code says of it", () => {
  // src/press/stock.cpp, container_code()
  assert.equal(containerOf("fogwright:container:C3"), "C3");
  assert.equal(containerOf("fogwright:batch:B12"), "B12");
  assert.equal(containerOf(" C7 "), "C7");
});
