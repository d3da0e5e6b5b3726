// SPDX-License-Identifier: Apache-2.0
// Usage: node tests/run_browser.mjs PROGRAMS [NAME...]: tests the pages in Chromium against a real server. PROGRAMS is the
// folder of fogwright and fogwright-server; NAME picks tests/browser/NAME.test.ts, else all run. Two names are no tests:
// `captures` takes pictures of every view, `repeat_visit` measures how soon a plan can be typed.
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
// Below web/, where the libraries are found.
const out = mkdtempSync(join(here, "../node_modules/.browser-"));
const [programs, ...names] = process.argv.slice(2);
if (!programs) throw new Error("usage: node tests/run_browser.mjs PROGRAMS [NAME...]");
const tests = readdirSync(join(here, "browser")).filter((name) => name.endsWith(".test.ts"));
const wanted = names.length > 0 ? names.map((name) => (tests.includes(`${name}.test.ts`) ? `${name}.test.ts` : `${name}.ts`)) : tests;

await build({
  entryPoints: [...wanted.map((name) => join(here, "browser", name)), join(here, "browser/harness/prepare.ts")],
  outdir: out,
  outbase: join(here, "browser"),
  outExtension: { ".js": ".mjs" },
  bundle: true,
  platform: "node",
  format: "esm",
  target: "node18",
  packages: "external",
  logLevel: "warning",
});

// In memory where there is a place for it: hundreds of durable writes a test.
const scratch = mkdtempSync(join(existsSync("/dev/shm") ? "/dev/shm" : tmpdir(), "fogwright-pages-"));
const env = { ...process.env, FOGWRIGHT_PROGRAMS: resolve(programs), FOGWRIGHT_SOURCE: resolve(here, "../.."), FOGWRIGHT_SCRATCH: scratch };
const run = (...words) => spawnSync(process.execPath, words, { stdio: "inherit", env }).status ?? 1;
const runAll = (files) => (files.every((file) => file.endsWith(".test.mjs")) ? run("--test", ...files) : run(...files));
let status = 1;
try {
  status = run(join(out, "harness/prepare.mjs")) || runAll(wanted.map((name) => join(out, name.replace(/\.ts$/, ".mjs"))));
} finally {
  for (const folder of [scratch, out]) rmSync(folder, { recursive: true, force: true });
}
process.exit(status);
