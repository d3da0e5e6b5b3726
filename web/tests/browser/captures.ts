// SPDX-License-Identifier: Apache-2.0
// Not a test: pictures of every view for people to look at: on a phone and on a desk, by day and in the dark, in Spanish
// on the narrowest phone with most contrast, and on paper.
//   node tests/run_browser.mjs PROGRAMS captures      leaves them in build/captures
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { closeBrowser } from "./harness/browser";
import { Device } from "./harness/device";
import { Office } from "./harness/office";
import { labels } from "./harness/programs";
import { password } from "./harness/world";
import { officeViews } from "./steps/office_views";
import { everyView, show, type SeenView } from "./steps/views";

const folder = join(labels(), "../build/captures");
const sizes = { phone: [390, 844], desk: [1280, 800], narrow: [320, 700], paper: [740, 960] } as const;
type Look = [size: keyof typeof sizes, theme: string, language: string];
const looks: Look[] = [["phone", "day", "en"], ["phone", "dark", "en"], ["desk", "day", "en"], ["desk", "dark", "en"], ["narrow", "contrast", "es"], ["paper", "day", "en"]];

async function picture(device: Device, view: SeenView, look: Look): Promise<void> {
  const [width, height] = sizes[look[0]];
  await device.page.setViewportSize({ width, height });
  await device.page.emulateMedia({ media: "screen" });
  await show(device, view);
  if (look[0] === "paper") await device.page.emulateMedia({ media: "print" });
  // As tall as the view: the bar at the bottom stands below it, not in its middle.
  const tall = await device.page.evaluate(() => document.documentElement.scrollHeight);
  if (!(await device.page.locator("dialog[open]").count())) await device.page.setViewportSize({ width, height: Math.max(height, tall) });
  await device.page.screenshot({ path: join(folder, `${view.name}-${look.join("-")}.png`) });
}

async function capture(office: Office, views: SeenView[], handle: string, look: Look): Promise<void> {
  const [[width, height], theme, language] = [sizes[look[0]], look[1], look[2]];
  const device = await Device.open(office, { width, height, touch: look[0] !== "desk", preferences: { theme, language } });
  await device.goto("/sign-in");
  const inputs = device.page.locator("form .field input");
  await inputs.nth(0).fill(handle);
  await inputs.nth(1).fill(password);
  await device.page.locator("form .button.main").click();
  await device.page.locator(".places").waitFor();
  for (const view of views) await picture(device, view, look);
  await device.context.close();
}

/** FOGWRIGHT_VIEWS=gate,mix: only those. */
const wanted = process.env.FOGWRIGHT_VIEWS?.split(",");
const chosen = (views: SeenView[]): SeenView[] => views.filter((view) => !wanted || wanted.includes(view.name));

mkdirSync(folder, { recursive: true });
const office = await Office.start();
try {
  const views = await everyView(office);
  for (const look of looks) {
    await capture(office, chosen(views), "sedge", look);
    await capture(office, chosen(officeViews("J1")), "marrow", look);
  }
  console.log(`captures: ${folder}`);
} finally {
  await closeBrowser();
  await office.stop();
}
