// SPDX-License-Identifier: Apache-2.0
import { readlinkSync } from "node:fs";
import { join } from "node:path";
import { chromium, type Browser, type BrowserContext, type BrowserContextOptions } from "playwright-core";
import { chromiumPath } from "./programs";

/** Root may run it, and it looks nothing up on its own. */
const flags = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage"];

let started: Promise<Browser> | undefined;
const apart = new Set<BrowserContext>();

/** One browser a test file; each device is a context of its own. */
export const theBrowser = (): Promise<Browser> => (started ??= chromium.launch({ executablePath: chromiumPath, args: flags }));

/** A browser of its own, whose files stay in the folder. */
export async function chromiumAt(profile: string, looks: BrowserContextOptions): Promise<BrowserContext> {
  const context = await chromium.launchPersistentContext(profile, { executablePath: chromiumPath, args: flags, ...looks });
  apart.add(context);
  context.once("close", () => apart.delete(context));
  return context;
}

/** As a battery that runs empty: nothing is closed, nothing is told. */
export async function killChromiumAt(profile: string, context: BrowserContext): Promise<void> {
  const closed = new Promise((resolve) => context.once("close", resolve));
  // Chromium's own lock on the folder: a link to HOST-PID.
  process.kill(Number(readlinkSync(join(profile, "SingletonLock")).split("-").pop()), "SIGKILL");
  await closed;
}

/** Also what a test that failed left open, without which the process would not end. */
export async function closeBrowser(): Promise<void> {
  await Promise.all([...apart].map((context) => context.close()));
  await (await started)?.close();
  started = undefined;
}
