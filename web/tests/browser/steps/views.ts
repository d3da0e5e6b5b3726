// SPDX-License-Identifier: Apache-2.0
// Every view of the pages, with a job in every state: what is looked at by axe, for its width, and for captures.
import type { Device } from "../harness/device";
import { byItem, Hands } from "../harness/hands";
import type { Office } from "../harness/office";
import { password } from "../harness/world";
import { highStrength, mixIt, readyToUse } from "./answers";

export interface SeenView {
  name: string;
  path: string;
  /** Shown once the view is there, in whatever language. */
  ready: string;
  /** Brings it to where it is worth looking at. */
  then?: (device: Device) => Promise<void>;
}

const openEmergency = async ({ page }: Device) => page.locator("button.emergency").click();

async function fillPlan({ page }: Device): Promise<void> {
  await page.locator(".choice").first().getByRole("radio").first().check();
  await page.locator("form .field input").first().fill("2400");
  await page.locator(".answer").waitFor();
}

async function countFog({ page }: Device): Promise<void> {
  await page.locator(".timer .button.main").click();
  await page.clock.fastForward(47_000);
}

async function stopInTheMiddle(device: Device): Promise<void> {
  await countFog(device);
  await device.page.locator("main > section > .button.wide").last().click();
  await device.page.locator("dialog input").waitFor();
}

async function emergencyInTheMiddle(device: Device): Promise<void> {
  await countFog(device);
  await openEmergency(device);
}

/** As a phone that timed a return finds its job, which was given up from elsewhere meanwhile. */
async function leaveRunning({ page }: Device): Promise<void> {
  await page.evaluate(() => new Promise<void>((resolve, reject) => {
    const opened = indexedDB.open("fogwright");
    opened.onsuccess = () => {
      const at = { last_wall: Date.now() - 8_000, last_running: performance.now() };
      const timer = { entry: "01970000-0000-7000-8000-000000000001", system: "system 1", name: "return 2", elapsed_ms: 51_000, open: true, unseen_ms: 0, ...at };
      const change = opened.result.transaction("fog", "readwrite");
      change.objectStore("fog").put({ job: decodeURIComponent(location.pathname.split("/").pop() ?? ""), timer });
      change.oncomplete = () => (opened.result.close(), resolve());
      change.onerror = () => reject(change.error);
    };
  }));
  await page.reload();
  await page.locator("main section .notice.danger").waitFor();
}

/** The gate's item after so many others. */
const putOff = (items: number) => async ({ page }: Device): Promise<void> => {
  for (let off = 0; off < items; ++off) {
    const now = (await page.locator("#item-words").textContent()) ?? "";
    await page.locator("article.item .actions .button").first().click();
    await page.locator("#item-words").filter({ hasNotText: now }).waitFor();
  }
};

const openReadings = async ({ page }: Device) => page.locator("details.readings summary").click();
const openForm = async ({ page }: Device) => page.locator(".acts .button").first().click();

const press = async ({ page }: Device) => {
  await page.locator("main .button.main").last().click();
  await page.getByRole("alert").waitFor();
};

const releaseWith = (secret: string) => async (device: Device): Promise<void> => {
  await device.page.locator("main input[type=password]").fill(secret);
  await press(device);
};

async function mix({ page }: Device): Promise<void> {
  for (const pick of await page.locator(".measure .picks button").all()) await pick.click();
  await page.locator(".measure ~ .choice input").first().check();
  await page.locator("form > .button.main").click();
  await page.locator(".notice.done").waitFor();
}

/** Makes the jobs; gives the views. */
export async function everyView(office: Office): Promise<SeenView[]> {
  await office.command(mixIt, "sedge");
  const sedge = await Hands.of(office, "sedge");
  const planned = await sedge.plan("fenmist-rtu");
  const ready = await sedge.open("fenmist-rtu", readyToUse);
  const fogging = await sedge.open("fenmist-rtu", readyToUse);
  await sedge.post(`/api/v1/jobs/${fogging}/start`);
  const start = async () => {
    const job = await sedge.open("fenmist-rtu", readyToUse);
    await sedge.post(`/api/v1/jobs/${job}/start`);
    return job;
  };
  const [stopping, exposed] = [await start(), await start()];
  const reopened = await sedge.open("fenmist-rtu", readyToUse);
  /** Somebody goes in between the look at the gate and the start. */
  const startTooLate = async (device: Device) => {
    // In step with the office, the page asks no sooner than after seconds: it still offers the start.
    await device.page.waitForLoadState("networkidle");
    await sedge.post(`/api/v1/jobs/${reopened}/lapses`, { event: "entered", why: "the neighbor went in" });
    await press(device);
    await sedge.meet(reopened, ["before mixing or filling", "before fogging"], byItem(readyToUse));
  };
  const left = await sedge.hold("fenmist-rtu", readyToUse);
  const asked = await sedge.hold("fenmist-rtu", readyToUse);
  const fogged = await sedge.fog("fenmist-rtu", readyToUse);
  const over = await sedge.hold("fenmist-rtu", readyToUse);
  await sedge.post("/api/v1/vessels/F1/draws", { volume: "14 fl oz", job: over });
  office.clock.pass(4 * 3_600_000);
  await sedge.meet(over, ["before release"], {});
  const holding = await sedge.hold("brackwater-20", highStrength);
  const mixing = await sedge.plan("brackwater-20");
  const stopped = await sedge.plan("palelight-hp");
  await sedge.post(`/api/v1/jobs/${stopped}/stop`, { why: "the customer is not at home" });
  return [
    { name: "today", path: "/", ready: ".card" },
    { name: "plan", path: "/plan", ready: ".choice input", then: fillPlan },
    { name: "planned", path: `/jobs/${planned}`, ready: ".facts" },
    { name: "gate", path: `/jobs/${planned}/gate`, ready: "article.item" },
    { name: "gate-lot", path: `/jobs/${planned}/gate`, ready: "article.item", then: putOff(4) },
    { name: "gate-respirator", path: `/jobs/${planned}/gate`, ready: "article.item", then: putOff(8) },
    { name: "mix", path: `/jobs/${mixing}/mix`, ready: ".measure li" },
    { name: "mixed", path: `/jobs/${mixing}/mix`, ready: ".measure li", then: mix },
    { name: "afterwards", path: `/jobs/${planned}/afterwards`, ready: "form" },
    { name: "ready", path: `/jobs/${ready}`, ready: ".facts" },
    { name: "fogging", path: `/jobs/${fogging}`, ready: ".timer", then: countFog },
    { name: "fogged", path: `/jobs/${fogged}`, ready: ".returns" },
    { name: "holding", path: `/jobs/${holding}`, ready: ".hold-clock" },
    { name: "readings", path: `/jobs/${holding}`, ready: ".hold-clock", then: openReadings },
    { name: "over", path: `/jobs/${over}`, ready: ".hold-clock" },
    { name: "stopping", path: `/jobs/${stopping}`, ready: ".timer", then: stopInTheMiddle },
    { name: "left-running", path: `/jobs/${left}`, ready: ".hold-clock", then: leaveRunning },
    { name: "start-refused", path: `/jobs/${reopened}`, ready: ".notice.done", then: startTooLate },
    { name: "release-refused", path: `/jobs/${asked}`, ready: ".hold-clock.over", then: releaseWith(password) },
    { name: "wrong-password", path: `/jobs/${over}`, ready: ".hold-clock.over", then: releaseWith("not the password") },
    { name: "stopped", path: `/jobs/${stopped}`, ready: ".facts" },
    { name: "stock", path: "/stock", ready: ".card" },
    { name: "vessel", path: "/stock/F1", ready: ".facts" },
    { name: "draw", path: "/stock/F1", ready: ".facts", then: openForm },
    { name: "welcome-broken", path: "/welcome", ready: ".notice.danger" },
    { name: "outbox", path: "/outbox", ready: "h1" },
    { name: "more", path: "/more", ready: ".choice" },
    { name: "nothing", path: "/nothing-here", ready: "h1" },
    { name: "welcome", path: "/welcome#an-invitation", ready: "form" },
    { name: "exposed", path: `/jobs/${exposed}`, ready: ".timer", then: emergencyInTheMiddle },
    { name: "emergency", path: `/jobs/${holding}`, ready: ".hold-clock", then: openEmergency },
  ];
}

export async function show(device: Device, view: SeenView): Promise<void> {
  await device.goto(view.path);
  await device.page.locator(view.ready).first().waitFor();
  await view.then?.(device);
  // What is still being read is not the view.
  await device.page.waitForFunction(() => !document.querySelector('[role="status"].empty'));
}
