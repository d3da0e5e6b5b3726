// SPDX-License-Identifier: Apache-2.0
// Whole jobs on a device's desk under node, through WebAssembly: node desk_engine_test.js fogwright_wasm.js
// The native engine is held to the same file (desk_corpus_test.cpp).
const assert = require("assert");
const fs = require("fs");
const path = require("path");
const {compare, load} = require("./load.js");

const corpus = JSON.parse(fs.readFileSync(path.join(__dirname, "desk_corpus.json"), "utf8"));

/** The call as a page makes it. */
function call(engine, {call: name, ...rest}) {
  const made = {
    restore: () => engine.restore(rest.documents, rest.size),
    fold: () => engine.fold(rest.entry),
    drop: () => engine.drop(rest.id),
    answers: () => engine.answers(rest.method, rest.path),
    ask: () => engine.ask(rest.request),
    snapshot: () => engine.snapshot(),
    size: () => engine.size(),
  };
  try {
    return {value: made[name]()};
  } catch (fault) {
    return {error: fault.message};
  }
}

async function main() {
  const engine = await load(process.argv[2]);
  corpus.forEach((one, number) => compare(call(engine, one.call), one.answer, `call ${number}`));
  assert.ok(corpus.length > 100);

  // A reload: the snapshot and the outbox give the same desk again.
  const own = corpus.flatMap((one) => one.answer.value?.entries ?? []).slice(-3);
  const saved = engine.snapshot();
  engine.restore(saved.documents, saved.size);
  for (const entry of own) engine.fold(entry);
  const jobs = engine.ask({...corpus.find((one) => one.call.call === "ask").call.request, method: "GET", path: "/api/v1/jobs", body: {}});
  assert.strictEqual(jobs.status, 200);
  assert.ok(engine.answers("POST", "/api/v1/jobs/J1/start"));
  assert.ok(!engine.answers("POST", "/api/v1/crew"));
  assert.throws(() => engine.fold({id: "no"}), /entry/);
  console.log(`${corpus.length} calls answered under node ${process.version}`);
}

main().catch((error) => { console.error(error); process.exit(1); });
