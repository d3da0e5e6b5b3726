// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import test from "node:test";
import { respiratorWords } from "../../src/views/plan/respirator_words";

test("a respirator has the same words from a plan and from the record, each hyphen of them kept", () => {
  for (const facepiece of ["full facepiece", "full-facepiece"])
    assert.equal(respiratorWords({ facepiece, cartridges: ["organic vapor/acid gas", "P100"] }), "full facepiece, organic vapor/acid gas, P100");
  assert.equal(respiratorWords({ facepiece: "self-contained" }), "self-contained breathing apparatus");
  assert.equal(respiratorWords({ facepiece: "powered", cartridges: ["P100"] }), "powered air-purifying respirator, P100");
});
