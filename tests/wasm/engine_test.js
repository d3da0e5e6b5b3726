// SPDX-License-Identifier: Apache-2.0
// The engine as the pages get it, under node: node engine_test.js fogwright_wasm.js
// It answers tests/wasm/requests.json as the native engine does (answers_test.cpp holds that to the same file).
const assert = require("assert");
const fs = require("fs");
const path = require("path");
const {compare, load} = require("./load.js");

const read = (...parts) => fs.readFileSync(path.join(__dirname, ...parts), "utf8");
const requests = JSON.parse(read("requests.json"));
const expected = JSON.parse(read("expected.json"));

function answer(engine, one) {
  const request = "request" in one ? JSON.stringify(one.request) : one.request_text;
  const label = "label" in one ? read("../../product_profiles_demo", one.label) : one.label_text;
  return JSON.parse(engine.plan(request, label));
}

async function main() {
  const engine = await load(process.argv[2]);
  assert.strictEqual(requests.length, Object.keys(expected).length);
  for (const one of requests) compare(answer(engine, one), expected[one.name], one.name);

  // A label over the limit of 1 MB is refused, not a crash; and what was handed out is taken back.
  assert.strictEqual(JSON.parse(engine.plan("{}", "#".repeat(3000000))).error.code, "bad-label");
  const before = engine.HEAPU8.length;
  for (let i = 0; i < 50; ++i) engine.plan("{}", "#".repeat(3000000));
  assert.strictEqual(engine.HEAPU8.length, before, "memory is not given back");
  console.log(`${requests.length} requests answered under node ${process.version}`);
}

main().catch((error) => { console.error(error); process.exit(1); });
