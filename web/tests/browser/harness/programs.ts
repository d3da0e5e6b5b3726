// SPDX-License-Identifier: Apache-2.0
// Where the programs under test and the tools of the test are.
import { execFile } from "node:child_process";
import { readdirSync, existsSync } from "node:fs";
import { join } from "node:path";
import { promisify } from "node:util";

function needed(name: string, what: string): string {
  const value = process.env[name];
  if (!value) throw new Error(`${name} is not set: ${what}`);
  return value;
}

/** The folder of fogwright and fogwright-server. */
export const programs = () => needed("FOGWRIGHT_PROGRAMS", "the folder that holds fogwright and fogwright-server");
export const labels = () => join(needed("FOGWRIGHT_SOURCE", "the top of the source tree"), "product_profiles_demo");
/** A folder of this run's own, that goes when it ends. */
export const scratch = () => needed("FOGWRIGHT_SCRATCH", "run_browser.mjs makes it");

export const chromiumPath = process.env.FOGWRIGHT_CHROMIUM ?? "/usr/bin/chromium";

/** libfaketime, wherever Debian put it for this kind of machine. */
function fakeTimeLibrary(): string {
  for (const folder of readdirSync("/usr/lib")) {
    const path = join("/usr/lib", folder, "faketime/libfaketimeMT.so.1");
    if (existsSync(path)) return path;
  }
  throw new Error("libfaketime is not installed: run scripts/setup test");
}

/** Programs started with this see the time that the file says, as seconds to add: "+14400". */
export const underClock = (file: string): NodeJS.ProcessEnv => ({
  ...process.env,
  LD_PRELOAD: fakeTimeLibrary(),
  FAKETIME_TIMESTAMP_FILE: file,
  FAKETIME_NO_CACHE: "1",
  NO_FAKE_STAT: "1",
});

const run = promisify(execFile);

/** Runs fogwright; throws with what it said when it refuses. */
export async function fogwright(words: string[], env: NodeJS.ProcessEnv): Promise<string> {
  try {
    return (await run(join(programs(), "fogwright"), words, { env, maxBuffer: 1 << 24 })).stdout;
  } catch (fault) {
    const { stdout, stderr } = fault as { stdout?: string; stderr?: string };
    throw new Error(`fogwright ${words.join(" ")}: ${stderr || stdout || String(fault)}`);
  }
}
