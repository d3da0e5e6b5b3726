// SPDX-License-Identifier: Apache-2.0
// A plan and the gate with the keyboard alone.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import type { Page } from "playwright-core";
import { closeBrowser } from "./harness/browser";
import { Device } from "./harness/device";
import { Office } from "./harness/office";
import { signIn } from "./steps/sign_in";

let office: Office;
before(async () => (office = await Office.start()));
after(async () => (await closeBrowser(), await office.stop()));

const farthest = 80;

/** What has the focus: its name and whether one can see that it has. */
const focused = (page: Page) => page.evaluate(() => {
  const at = document.activeElement as HTMLElement | null;
  if (!at || at === document.body) return { name: "", seen: true };
  const shown = (one: Element) => getComputedStyle(one).outlineStyle !== "none" && Number.parseFloat(getComputedStyle(one).outlineWidth) >= 2;
  const labels = (at as HTMLInputElement).labels;
  const name = at.getAttribute("aria-label") ?? labels?.[0]?.textContent ?? at.textContent ?? "";
  const carriers = [at, at.parentElement, at.nextElementSibling, ...(labels ?? [])].filter((one): one is Element => !!one);
  return { name: name.trim(), seen: at.tagName === "H1" || carriers.some(shown) };
});

/** Tabs on until the focus is at the name; on the way nothing may hide the focus or keep it. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
  const passed: string[] = [];
  for (let step = 0; step < farthest; ++step) {
    await page.keyboard.press("Tab");
    const now = await focused(page);
    assert.ok(now.seen, `nobody sees that "${now.name}" has the focus`);
    if (name.test(now.name)) return;
    passed.push(now.name);
  }
  assert.fail(`the keyboard does not come to ${name}; it came to: ${passed.join(", ")}`);
}

test("plan and gate by the keyboard alone", async () => {
  const desk = await Device.open(office, { width: 1280, height: 800, touch: false, name: "office desk" });
  const { page } = desk;
  await signIn(desk, "sedge");
  await tabTo(page, /^Plan$/);
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { name: "Plan a job" }).waitFor();
  assert.match((await focused(page)).name, /Plan a job/, "the heading of a new view takes the focus");
  await page.getByRole("radio", { name: "Fenmist RTU" }).waitFor();
  await tabTo(page, /Fenmist|Brackwater|Palelight/);
  for (let n = 0; n < 3 && !(await page.getByRole("radio", { name: "Fenmist RTU" }).isChecked()); ++n) await page.keyboard.press(n === 0 ? "Space" : "ArrowDown");
  await tabTo(page, /^Conditioned floor area/);
  await page.keyboard.type("2400");
  await page.locator(".answer .big").first().waitFor();
  await tabTo(page, /^Make it a job$/);
  await page.keyboard.press("Enter");
  await page.getByRole("heading", { level: 1, name: /^Job / }).waitFor();
  await tabTo(page, /^Meet \d+ open items$/);
  await page.keyboard.press("Enter");
  const words = page.locator("#item-words");
  await words.waitFor();
  for (let met = 0; met < 2; ++met) {
    const now = await words.textContent();
    await tabTo(page, /^Yes, done$/);
    await page.keyboard.press("Enter");
    await words.filter({ hasNotText: now ?? "" }).waitFor();
  }
  await page.getByText(/^2 of \d+ met$/).waitFor();
  await desk.close();
});

test("the emergency card opens and closes by the keyboard, and gives the focus back", async () => {
  const desk = await Device.open(office, { width: 1280, height: 800, touch: false });
  const { page } = desk;
  await signIn(desk, "sedge");
  await tabTo(page, /^Emergency$/);
  await page.keyboard.press("Enter");
  await page.getByRole("dialog").waitFor();
  await page.keyboard.press("Escape");
  await page.getByRole("dialog").waitFor({ state: "detached" });
  assert.equal((await focused(page)).name, "Emergency");
  await desk.close();
});
