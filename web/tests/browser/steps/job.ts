// SPDX-License-Identifier: Apache-2.0
// From the start of the fog to the close, as fingers do it.
import type { Device } from "../harness/device";
import { password } from "../harness/world";
import { meetGate, type Answers } from "./gate";

export async function startFog({ page }: Device): Promise<void> {
  await page.getByRole("button", { name: "Start the fog" }).tap();
  await page.getByRole("button", { name: /^Valve is open: count/ }).waitFor();
}

/** The seconds that the ring names as the target. */
export async function targetSeconds({ page }: Device): Promise<number> {
  return Number(/of (\d+) s/.exec((await page.locator(".ring .inside").textContent()) ?? "")?.[1]);
}

/** Fogs the return that the page asks for until its target. */
export async function fogReturn(device: Device): Promise<void> {
  const { page } = device;
  const name = await page.locator(".timer h2").textContent();
  const target = await targetSeconds(device);
  await device.still(async (passes) => {
    await page.getByRole("button", { name: /^Valve is open/ }).tap();
    await passes(target * 1000);
    await page.getByRole("status").filter({ hasText: "Target reached" }).waitFor();
    await page.getByRole("button", { name: "Valve shut: record" }).tap();
    await passes(100);
    await page.getByRole("button", { name: "Valve shut: record" }).waitFor({ state: "detached" });
  });
  const next = page.locator(".timer h2").filter({ hasNotText: name ?? "" });
  await next.or(page.getByText("Every return has had its fog")).first().waitFor();
}

export async function endFog({ page }: Device, left: string): Promise<void> {
  await page.getByLabel("Left in the tank").fill(left);
  await page.getByRole("button", { name: "Valve shut, motor off: the hold begins" }).tap();
  await page.getByRole("timer").waitFor();
}

/** Milliseconds that the clock of the hold shows as left. */
export async function holdLeft({ page }: Device): Promise<number> {
  const shown = (await page.getByRole("timer").textContent()) ?? "";
  return shown.split(":").reduce((sum, part) => sum * 60 + Number(part), 0) * 1000;
}

export async function release({ page }: Device): Promise<void> {
  await page.getByLabel("Your password, once more").fill(password);
  await page.getByRole("button", { name: "Release the building" }).tap();
  await page.locator(".mark.released").waitFor();
}

/** With no signal nobody can check a password: the handle signs it. */
export async function releaseAlone({ page }: Device, handle: string): Promise<void> {
  await page.getByLabel(/^Write your handle/).fill(handle);
  await page.getByRole("button", { name: "Release the building" }).tap();
  await page.locator(".mark.released").waitFor();
}

export async function closeJob({ page }: Device): Promise<void> {
  await page.getByRole("button", { name: "Close the job" }).tap();
  await page.getByText("The job is done").waitFor();
}

/** The items of the fogging, which are asked for when every return has its fog. */
export async function meetWhileFogging(device: Device, answers: Answers): Promise<void> {
  const link = device.page.getByRole("link", { name: /items? of the fogging/ });
  await device.page.getByText("Every return has had its fog").waitFor();
  if (await link.isVisible()) await meetGate(device, answers, link);
}
