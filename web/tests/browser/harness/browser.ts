// SPDX-License-Identifier: Apache-2.0
import { chromium, type Browser } from "playwright-core";
import { chromiumPath } from "./programs";

/** Root may run it, and it looks nothing up on its own. */
const flags = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage"];

let started: Promise<Browser> | undefined;

/** One browser a test file; each device is a context of its own. */
export const theBrowser = (): Promise<Browser> => (started ??= chromium.launch({ executablePath: chromiumPath, args: flags }));

export async function closeBrowser(): Promise<void> {
  await (await started)?.close();
  started = undefined;
}
