// SPDX-License-Identifier: Apache-2.0
import type { Device } from "../harness/device";

export interface PlanWishes {
  product: string;
  area: string;
  returns?: number;
  fogger?: string;
  entrances?: string;
  van?: string;
}

/** Fills the plan and waits for its answer. */
export async function fillPlan(device: Device, wishes: PlanWishes): Promise<void> {
  const { page } = device;
  await device.goto("/plan");
  await page.getByRole("radio", { name: wishes.product }).check();
  await page.getByLabel("Conditioned floor area").fill(wishes.area);
  for (let n = 1; n < (wishes.returns ?? 1); ++n) await page.getByRole("button", { name: "Add a return" }).tap();
  if (wishes.fogger) await page.getByRole("radio", { name: wishes.fogger }).check();
  if (wishes.entrances) await page.getByLabel("Entrances to post").fill(wishes.entrances);
  if (wishes.van) await page.getByRole("button", { name: wishes.van }).tap();
  await page.locator(".answer .seconds li").nth((wishes.returns ?? 1) - 1).waitFor();
}

/** Makes it a job; gives its number. */
export async function makeJob(device: Device): Promise<string> {
  const { page } = device;
  await page.getByRole("button", { name: "Make it a job" }).tap();
  const heading = page.getByRole("heading", { level: 1, name: /^Job / });
  await heading.waitFor();
  return /^Job (\S+)/.exec((await heading.textContent()) ?? "")?.[1] ?? "";
}
