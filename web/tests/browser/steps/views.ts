// SPDX-License-Identifier: Apache-2.0
// Every view of the pages, with a job in every state: what is looked at by axe, for its width, and for captures.
import type { Device } from "../harness/device";
import { Hands } from "../harness/hands";
import type { Office } from "../harness/office";
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
    { name: "mix", path: `/jobs/${mixing}/mix`, ready: ".measure li" },
    { name: "mixed", path: `/jobs/${mixing}/mix`, ready: ".measure li", then: mix },
    { name: "afterwards", path: `/jobs/${planned}/afterwards`, ready: "form" },
    { name: "ready", path: `/jobs/${ready}`, ready: ".facts" },
    { name: "fogging", path: `/jobs/${fogging}`, ready: ".timer", then: countFog },
    { name: "fogged", path: `/jobs/${fogged}`, ready: ".returns" },
    { name: "holding", path: `/jobs/${holding}`, ready: ".hold-clock" },
    { name: "over", path: `/jobs/${over}`, ready: ".hold-clock" },
    { name: "stopped", path: `/jobs/${stopped}`, ready: ".facts" },
    { name: "stock", path: "/stock", ready: ".card" },
    { name: "vessel", path: "/stock/F1", ready: ".facts" },
    { name: "outbox", path: "/outbox", ready: "h1" },
    { name: "more", path: "/more", ready: ".choice" },
    { name: "nothing", path: "/nothing-here", ready: "h1" },
    { name: "welcome", path: "/welcome", ready: "form" },
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
