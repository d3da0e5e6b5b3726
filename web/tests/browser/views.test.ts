// SPDX-License-Identifier: Apache-2.0
// Every view against WCAG 2.2 AA (axe-core), at 320 px of width, in both languages and all themes.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import type { Page } from "playwright-core";
import { closeBrowser } from "./harness/browser";
import { Device } from "./harness/device";
import { Office } from "./harness/office";
import { password, type Handle } from "./harness/world";
import { officeViews } from "./steps/office_views";
import { everyView, show, type SeenView } from "./steps/views";

const axePath = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

let office: Office;
/** The driveway's and the desk's, each with one who may see and write it all. */
let views: [handle: Handle, views: SeenView[]][];
before(async () => {
  office = await Office.start();
  views = [["sedge", await everyView(office)], ["marrow", officeViews("J1")]];
});
after(async () => (await closeBrowser(), await office.stop()));

/** WCAG 2.2, levels A and AA, as axe-core tags its rules. */
const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

async function axeFaults(page: Page): Promise<string[]> {
  // As the developer's tools would: the page's own policy lets no foreign script in.
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate((await import("node:fs")).readFileSync(axePath, "utf8"));
  return page.evaluate(async (runTags) => {
    const { axe } = window as unknown as { axe: { run(where: Document, how: object): Promise<{ violations: { id: string; help: string; nodes: { html: string }[] }[] }> } };
    const { violations } = await axe.run(document, { runOnly: runTags });
    return violations.map((one) => `${one.id}: ${one.help}: ${one.nodes.map((node) => node.html.slice(0, 120)).join(" | ")}`);
  }, tags);
}

/** So that nothing lies below the bar at the bottom, where axe-core would call it too small to hit. */
const tall = 8_000;

/** What is wider than the screen, where the page scrolls sideways. */
const tooWide = (page: Page): Promise<string[]> => page.evaluate(() => {
  const width = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth <= width) return [];
  return [...document.querySelectorAll("body *")].filter((one) => one.getBoundingClientRect().right > width + 1).map((one) => `${one.tagName}.${one.className}`).slice(0, 5);
});

/** What fingers in gloves would miss. WCAG 2.2, 2.5.5 (AAA) asks for 44 CSS px; inside a sentence a link may be smaller. */
const tooSmall = (page: Page): Promise<string[]> => page.evaluate(() => {
  const targets = document.querySelectorAll("button, a[href], input:not(.unseen):not([type=radio]), summary, select, .choice label, label.button");
  return [...targets].filter((one) => {
    const { width, height } = one.getBoundingClientRect();
    return one.checkVisibility() && !one.classList.contains("skip") && !one.closest("p, [inert]") && width > 1 && (width < 43.5 || height < 43.5);
  }).map((one) => `${one.tagName} "${one.textContent?.trim().slice(0, 40)}"`);
});

/** What is printed on a cartridge, the citation of a law, and the bytes of an entry, stay as they were written. */
const asWritten = /^([\w ,/]*\bP100$|.*\b(CFR|USC|GHS)\b)/;

/** What else is marked as English on a page that is not. */
async function inEnglish(page: Page): Promise<string[]> {
  if ((await page.evaluate(() => document.documentElement.lang)) === "en") return [];
  return (await page.locator("body [lang=en]:not(pre, .label-words)").allTextContents()).map((text) => text.trim()).filter((text) => !asWritten.test(text));
}

type Preferences = { theme: string; language?: string };

async function look(name: string, preferences: Preferences, width: number, height: number): Promise<void> {
  const faults: string[] = [];
  for (const [handle, seen] of views) {
    const device = await Device.open(office, { width, height, touch: width < 1000, preferences });
    const check = async (view: string) => {
      for (const [what, of] of [["axe", axeFaults], ["wider than the screen", tooWide], ["smaller than 44 px", tooSmall], ["left in English", inEnglish]] as const)
        for (const fault of await of(device.page)) faults.push(`${name}, ${view}: ${what}: ${fault}`);
      const language = await device.page.evaluate(() => document.documentElement.lang);
      if (language !== (preferences.language ?? "en")) faults.push(`${view}: the document says it is ${language}`);
    };
    await device.goto("/sign-in");
    const inputs = device.page.locator("form .field input");
    await inputs.first().waitFor();
    await check("sign-in");
    await inputs.nth(0).fill(handle);
    await inputs.nth(1).fill(password);
    await device.page.locator("form .button.main").click();
    await device.page.locator(".places").waitFor();
    for (const view of seen) {
      await show(device, view);
      await check(view.name);
    }
    await device.close();
  }
  assert.deepEqual(faults, []);
}

test("on a narrow phone of 320 px, English, by day", () => look("320", { theme: "day" }, 320, tall));
test("on a phone, Spanish, dark", () => look("phone", { theme: "dark", language: "es" }, 390, tall));
test("on a desk, English, most contrast", () => look("desk", { theme: "contrast" }, 1280, 800));
