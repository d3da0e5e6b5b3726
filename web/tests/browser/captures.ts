// SPDX-License-Identifier: Apache-2.0
// Not a test: pictures of every view on a phone and on a desk, by day and in the dark, for people to look at.
//   node tests/run_browser.mjs PROGRAMS captures      leaves them in build/captures
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { closeBrowser } from "./harness/browser";
import { Device } from "./harness/device";
import { Office } from "./harness/office";
import { labels } from "./harness/programs";
import { signIn } from "./steps/sign_in";
import { everyView, show, type SeenView } from "./steps/views";

const folder = join(labels(), "../build/captures");
const sizes = { phone: [390, 844], desk: [1280, 800] } as const;

async function capture(office: Office, views: SeenView[], size: keyof typeof sizes, theme: string): Promise<void> {
  const [width, height] = sizes[size];
  const device = await Device.open(office, { width, height, touch: size === "phone", preferences: { theme } });
  await signIn(device, "sedge");
  for (const view of views) {
    await show(device, view);
    await device.page.screenshot({ path: join(folder, `${view.name}-${size}-${theme}.png`), fullPage: view.name !== "emergency" });
  }
  await device.context.close();
}

mkdirSync(folder, { recursive: true });
const office = await Office.start();
try {
  const views = await everyView(office);
  for (const size of ["phone", "desk"] as const) for (const theme of ["day", "dark"]) await capture(office, views, size, theme);
  console.log(`captures: ${folder}`);
} finally {
  await closeBrowser();
  await office.stop();
}
