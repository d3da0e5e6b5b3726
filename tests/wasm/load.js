// SPDX-License-Identifier: Apache-2.0
// The engine as node loads it, and how answers of two engines are compared.
const assert = require("assert");
const crypto = require("crypto");
const fs = require("fs");
const path = require("path");

exports.load = (file) => {
  const script = path.resolve(file);
  return require(script)({
    wasmBinary: fs.readFileSync(script.replace(/js$/, "wasm")),
    sha256: (bytes) => crypto.createHash("sha256").update(bytes).digest(),
  });
};

/** Whole numbers are the same; real ones may differ in the last digits, as C libraries do. */
const compare = (actual, wanted, place) => {
  if (typeof actual === "number" && typeof wanted === "number" &&
      !(Number.isInteger(actual) && Number.isInteger(wanted))) {
    assert.ok(Math.abs(actual - wanted) <= 1e-12 * Math.abs(wanted), `${place}: ${actual}, not ${wanted}`);
  } else if (actual !== null && wanted !== null && typeof actual === "object" && typeof wanted === "object") {
    assert.strictEqual(Array.isArray(actual), Array.isArray(wanted), place);
    assert.deepStrictEqual(Object.keys(actual).sort(), Object.keys(wanted).sort(), place);
    for (const key of Object.keys(wanted)) compare(actual[key], wanted[key], `${place}/${key}`);
  } else {
    assert.strictEqual(actual, wanted, place);
  }
};
exports.compare = compare;
