// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import test from "node:test";
import { addressOf } from "../../src/api/operation";
import { match } from "../../src/route/router";

test("a pattern gives the names that stand in an address", () => {
  assert.deepEqual(match("/jobs/:job/gate", "/jobs/J%201/gate"), { job: "J 1" });
  assert.deepEqual(match("/", "/"), {});
  assert.deepEqual(match("/more", "/more/"), {});
  assert.equal(match("/jobs/:job", "/jobs/"), null);
  assert.equal(match("/jobs/:job", "/jobs/J1/gate"), null);
  assert.deepEqual(match("/jobs/:job", "/jobs/%E0%A4%A"), { job: "%E0%A4%A" });
});

test("an operation has its address from the description, names encoded", () => {
  assert.deepEqual(addressOf("meetItem", { job: "J/1", item: "lot noted" }), { method: "POST", path: "/api/v1/jobs/J%2F1/checks/lot%20noted" });
  assert.throws(() => addressOf("showJob"), /no job is given/);
});
