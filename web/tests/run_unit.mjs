// SPDX-License-Identifier: Apache-2.0
// Bundles each tests/unit/*.test.ts for node and runs them with node's own test runner.
import { spawnSync } from "node:child_process";
import { readdirSync, rmSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import "../generate_types.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const out = join(here, "../node_modules/.unit");
const tests = readdirSync(join(here, "unit")).filter((name) => name.endsWith(".test.ts"));

rmSync(out, { recursive: true, force: true });
await build({
  entryPoints: tests.map((name) => join(here, "unit", name)),
  outdir: out,
  outExtension: { ".js": ".mjs" },
  bundle: true,
  platform: "node",
  format: "esm",
  target: "node18",
  jsx: "automatic",
  jsxImportSource: "preact",
  // An open channel between tabs would keep node from ending.
  define: { ENGINES: "null", BroadcastChannel: "undefined" },
  // What every browser has and node has of itself only since version 19.
  banner: { js: 'import { webcrypto } from "node:crypto"; globalThis.crypto ??= webcrypto;' },
  logLevel: "warning",
});
const files = tests.map((name) => join(out, name.replace(/\.ts$/, ".mjs")));
process.exit(spawnSync(process.execPath, ["--test", ...files], { stdio: "inherit" }).status ?? 1);
