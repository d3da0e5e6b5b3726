// SPDX-License-Identifier: Apache-2.0
// Two phones on one job: what one writes the other shows; what one does not know yet, the desk refuses.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeBrowser } from "./harness/browser";
import { Device, pass } from "./harness/device";
import { byItem, Hands } from "./harness/hands";
import { Office } from "./harness/office";
import { password } from "./harness/world";
import { highStrength, mixIt, readyToUse } from "./steps/answers";
import { holdLeft } from "./steps/job";
import { signIn } from "./steps/sign_in";

let office: Office;
let sedge: Hands;
before(async () => {
  office = await Office.start();
  sedge = await Hands.of(office, "sedge");
});
after(async () => (await closeBrowser(), await office.stop()));

/** What the book counts of a job (docs/entries.md). */
interface Refused {
  starts_refused: number;
  releases_refused: number;
}

async function twoPhones(): Promise<[Device, Device]> {
  const [first, second] = [await Device.open(office), await Device.open(office, { name: "plover phone" })];
  await signIn(first, "sedge");
  await signIn(second, "bracken");
  return [first, second];
}

test("an item that one phone meets is met on the other", async () => {
  const [first, second] = await twoPhones();
  const job = await sedge.plan("fenmist-rtu");
  for (const phone of [first, second]) await phone.goto(`/jobs/${job}/gate`);
  const progress = first.page.getByText(/^\d+ of \d+ met$/).first();
  assert.match((await progress.textContent()) ?? "", /^0 of/);
  await second.page.getByRole("button", { name: "Yes, done" }).tap();
  await second.page.getByText(/^1 of \d+ met$/).waitFor();
  await pass(31_000, office, first);
  await first.page.getByText(/^1 of \d+ met$/).waitFor();
  await first.close();
  await second.close();
});

test("a start is refused when somebody went in meanwhile, and the refusal is in the book", async () => {
  const job = await sedge.open("fenmist-rtu", readyToUse);
  const [first, second] = await twoPhones();
  for (const phone of [first, second]) await phone.goto(`/jobs/${job}`);
  const start = first.page.getByRole("button", { name: "Start the fog" });
  await start.waitFor();
  await first.still(async () => {
    await second.goto(`/jobs/${job}/gate`);
    await second.page.getByRole("button", { name: "Somebody went in" }).tap();
    await second.page.locator("article.item").waitFor();
    await start.tap();
    await first.page.getByRole("alert").filter({ hasText: "Not done" }).waitFor();
  });
  assert.equal((await office.job<Refused>(job)).starts_refused, 1);
  assert.equal((await office.job(job)).state, "planned");
  await first.page.getByRole("link", { name: /^Meet \d+ open items?/ }).waitFor();
  await first.close();
  await second.close();
});

test("a release is refused when a reading above the limit was taken meanwhile", async () => {
  await office.command(mixIt, "sedge");
  const job = await sedge.hold("brackwater-20", highStrength);
  const [first, second] = await twoPhones();
  await first.goto(`/jobs/${job}`);
  await pass((await holdLeft(first)) + 1_000, office, first, second);
  const reading = (value: string) => sedge.post(`/api/v1/jobs/${job}/readings`, { substance: "10049-04-4", value, fan_running: true });
  await reading("0.02 mg/m3");
  await pass(16 * 60_000, office, first, second);
  await reading("0.02 mg/m3");
  await sedge.meet(job, ["before release"], byItem(highStrength));
  await pass(31_000, office, first);
  await first.page.getByLabel("Your password, once more").fill(password);
  await first.still(async () => {
    await reading("3 mg/m3");
    await first.page.getByRole("button", { name: "Release the building" }).tap();
    await first.page.getByRole("alert").filter({ hasText: "Not done" }).waitFor();
  });
  const shown = await office.job<Refused>(job);
  assert.equal(shown.state, "holding");
  assert.equal(shown.releases_refused, 1);
  await first.close();
  await second.close();
});

test("a job at the gate stands first in nobody's way: both phones list it", async () => {
  const [first, second] = await twoPhones();
  const job = await sedge.plan("fenmist-rtu");
  for (const phone of [first, second]) {
    await phone.goto("/");
    await phone.page.getByRole("link", { name: new RegExp(`${job}\\b`) }).waitFor();
  }
  await first.page.getByRole("link", { name: new RegExp(`${job}\\b`) }).filter({ hasText: "yours" }).waitFor();
  await first.close();
  await second.close();
});
