// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import test from "node:test";
import { actionsOn, vesselActions } from "../../src/driveway/vessel_actions";

test("a label is put right on a container only, and only with a reason", () => {
  const ids = (batch: boolean, reachesOffice = true) => actionsOn({ batch }, reachesOffice).map(({ id }) => id);
  assert.equal(ids(false).length, vesselActions.length);
  assert.deepEqual(ids(false).filter((id) => !ids(true).includes(id)), ["correctContainer"]);
  assert.deepEqual(ids(false, false), ids(true), "and only with the office");
  const members = vesselActions.find(({ id }) => id === "correctContainer")?.members ?? [];
  assert.deepEqual(members.filter(({ needed }) => needed).map(({ name }) => name), ["why"]);
});
