// SPDX-License-Identifier: Apache-2.0
// Runs the engine as the pages get it, under node: node engine_test.js fogwright_wasm.js
const assert = require("assert");
const load = require(require("path").resolve(process.argv[2]));

load().then((engine) => {
  const floorArea = (text) => JSON.parse(engine.ccall("fogwright_floor_area", "string", ["string"], [text]));

  // 1 ft = 0.3048 m exactly (NIST SP 811, Appendix B.8).
  assert.ok(Math.abs(floorArea("2,400 sq ft").m2 - 2400 * 0.3048 ** 2) < 1e-9);
  assert.strictEqual(floorArea("223 m2").m2, 223);

  const refusal = floorArea("2400 furlongs").error;
  assert.strictEqual(refusal.code, "not-understood");
  assert.ok(refusal.hint.includes("sq ft"), refusal.hint);
  console.log("the engine answers under node " + process.version);
}).catch((error) => { console.error(error); process.exit(1); });
