// SPDX-License-Identifier: Apache-2.0
// A phone that sleeps, and a page that is loaded anew at every step.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeBrowser } from "./harness/browser";
import { Device, pass } from "./harness/device";
import { Hands } from "./harness/hands";
import { Office } from "./harness/office";
import { readyToUse } from "./steps/answers";
import { holdLeft, targetSeconds } from "./steps/job";
import { signIn } from "./steps/sign_in";

let office: Office;
let sedge: Hands;
before(async () => {
  office = await Office.start();
  sedge = await Hands.of(office, "sedge");
});
after(async () => (await closeBrowser(), await office.stop()));

const minute = 60_000;
interface Held { hold: { total_ms: number; elapsed_ms: number } }
const deskLeft = async (job: string) => {
  const { hold } = await sedge.get<Held>(`/api/v1/jobs/${job}`);
  return hold.total_ms - hold.elapsed_ms;
};

test("while the phone sleeps the hold on its screen never runs ahead of the desk's", async () => {
  const job = await sedge.hold("fenmist-rtu", readyToUse);
  const phone = await Device.open(office);
  await signIn(phone, "sedge");
  await phone.goto(`/jobs/${job}`);
  await phone.page.getByRole("timer").waitFor();
  for (const slept of [1, 40, 90]) {
    office.clock.pass(slept * minute);
    await phone.asleep();
    const shown = await holdLeft(phone);
    assert.ok(shown >= (await deskLeft(job)) - 1_000, `after ${slept} min of sleep the screen shows ${shown} ms`);
    assert.ok(await phone.page.getByRole("button", { name: "Release the building" }).isDisabled());
  }
  await phone.page.getByText(/The phone slept, or its clock was turned/).waitFor();
  // Awake again it asks, and from then on shows what the desk says.
  await pass(31_000, office, phone);
  await phone.page.getByRole("timer").filter({ hasText: /^(0:)?[45]\d:/ }).waitFor();
  await phone.close();
});

test("a fog that is timed goes on over a reload, and the time that nobody saw counts as fog", async () => {
  const job = await sedge.open("fenmist-rtu", readyToUse);
  await sedge.post(`/api/v1/jobs/${job}/start`);
  const phone = await Device.open(office);
  await signIn(phone, "sedge");
  await phone.goto(`/jobs/${job}`);
  const target = await targetSeconds(phone);
  await phone.page.getByRole("button", { name: /^Valve is open/ }).tap();
  await pass(10_000, office, phone);
  await phone.page.locator(".ring .big").filter({ hasText: /^\d\d+ s/ }).waitFor();
  await phone.page.clock.install({ time: office.clock.now() + (target + 20) * 1000 });
  office.clock.pass((target + 20) * 1000);
  await phone.page.reload();
  await phone.page.getByRole("status").filter({ hasText: "Past the high mark" }).waitFor();
  await phone.page.getByText(/passed while the page was out of sight/).waitFor();
  await phone.page.getByRole("button", { name: "Pause: valve shut" }).tap();
  const paused = await phone.page.locator(".ring .big").textContent();
  await phone.page.reload();
  await phone.page.getByRole("status").filter({ hasText: "Paused" }).waitFor();
  assert.equal(await phone.page.locator(".ring .big").textContent(), paused, "a paused fog grows over a reload");
  await phone.page.getByRole("button", { name: "Valve shut: record" }).tap();
  await phone.page.getByRole("button", { name: /^Valve is open/ }).waitFor();
  await phone.close();
});

/** On a phone that has timed the first return for 20 s, the valve still open. */
async function timing(work: (phone: Device, job: string, passes: (ms: number) => Promise<void>) => Promise<void>): Promise<string> {
  const job = await sedge.open("fenmist-rtu", readyToUse);
  await sedge.post(`/api/v1/jobs/${job}/start`);
  const phone = await Device.open(office);
  await signIn(phone, "sedge");
  await phone.goto(`/jobs/${job}`);
  const valve = phone.page.getByRole("button", { name: /^Valve is open/ });
  await valve.waitFor();
  await phone.still(async (passes) => {
    await valve.tap();
    await passes(20_000);
    await work(phone, job, passes);
  });
  await phone.page.locator(".mark.stopped").waitFor();
  await phone.page.getByRole("timer").waitFor();
  for (let tries = 0; (await fogged(job)).length === 0 && tries < 100; tries++) await phone.page.waitForTimeout(50);
  await phone.close();
  return job;
}
const fogged = async (job: string) => (await sedge.get<{ returns: { actual_ms: number }[] }>(`/api/v1/jobs/${job}`)).returns.map((one) => one.actual_ms);

test("a job that is given up while a return is timed keeps what came out", async () => {
  const job = await timing(async ({ page }, _, passes) => {
    await page.getByRole("button", { name: "Give the job up" }).tap();
    await passes(100);
    await page.getByText(/: 20\.\d s are recorded as fogged/).waitFor();
    await page.getByLabel("Why", { exact: true }).fill("the alarm went off");
    await page.getByRole("button", { name: "Stop the job" }).tap();
    await passes(100);
  });
  const [first, ...more] = await fogged(job);
  assert.ok(first !== undefined && first >= 20_000 && first < 21_000 && more.length === 0, `${first} ms, and ${more.length} more`);
});

test("a job that is given up from elsewhere while this phone times a return takes the stretch all the same", async () => {
  const job = await timing(async ({ page }, job, passes) => {
    await sedge.post(`/api/v1/jobs/${job}/stop`, { why: "the owner called" });
    await passes(31_000);
    await page.getByText("A return was being timed on this phone").waitFor();
    assert.equal(await page.getByRole("button", { name: "Release the building" }).count(), 0, "released before the stretch is in the book");
    await page.getByRole("button", { name: "Valve shut: record" }).tap();
    await passes(100);
    await page.getByText("A return was being timed on this phone").waitFor({ state: "detached" });
  });
  const [first, ...more] = await fogged(job);
  assert.ok(first !== undefined && first >= 51_000 && more.length === 0, `${first} ms, and ${more.length} more`);
});

test("each step of a job stands after a reload as it stood before", async () => {
  const phone = await Device.open(office);
  await signIn(phone, "sedge");
  const heading = (words: string) => phone.page.getByText(words).first().waitFor();
  const reloaded = async (path: string, words: string) => {
    await phone.goto(path);
    await heading(words);
    await phone.page.reload();
    await heading(words);
  };
  const planned = await sedge.plan("fenmist-rtu");
  await reloaded(`/jobs/${planned}`, "planned");
  await reloaded(`/jobs/${planned}/gate`, `Gate of ${planned}`);
  const ready = await sedge.open("fenmist-rtu", readyToUse);
  await reloaded(`/jobs/${ready}`, "Start the fog");
  const holding = await sedge.hold("fenmist-rtu", readyToUse);
  await reloaded(`/jobs/${holding}`, "Nobody goes in");
  await reloaded("/stock/F1", "FR-2601");
  await reloaded("/more", "Signed in as sedge");
  await phone.close();
});
