// SPDX-License-Identifier: Apache-2.0
import type { Device } from "../harness/device";

/** Where the gate's items on mixing lead: by the label's table, out of these containers. Gives the batch, back at the gate. */
export async function mixForJob(device: Device, job: string, containers: string[]): Promise<string> {
  const { page } = device;
  await device.goto(`/jobs/${job}/mix`);
  for (const container of containers) await page.locator(".measure .picks").getByRole("button", { name: new RegExp(`^${container},`) }).tap();
  const record = page.getByRole("button", { name: "It is mixed: record it" });
  if (await record.isEnabled()) throw new Error("nobody said whether the respirator was worn");
  await page.getByRole("group", { name: "Respirator worn while mixing" }).getByText("yes", { exact: true }).tap();
  await record.tap();
  const batch = /^Batch (\S+):/.exec((await page.getByText(/^Batch \S+: write it on the vessel$/).textContent()) ?? "")?.[1] ?? "";
  await page.getByRole("link", { name: "Go on with the job" }).tap();
  await page.locator("article.item").waitFor();
  return batch;
}
