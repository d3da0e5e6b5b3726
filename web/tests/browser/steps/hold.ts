// SPDX-License-Identifier: Apache-2.0
import type { Device } from "../harness/device";

/** Takes one reading of the instrument, the fan running. */
export async function takeReading({ page }: Device, value: string): Promise<void> {
  const panel = page.locator("details.readings");
  if (!(await panel.evaluate((shown) => (shown as HTMLDetailsElement).open))) await panel.locator("summary").tap();
  const before = await panel.locator("tbody tr").count();
  await panel.getByRole("radio", { name: "mg/m³", exact: true }).check();
  await panel.getByLabel("Reading", { exact: true }).fill(value);
  await panel.getByRole("radio", { name: "yes", exact: true }).check();
  await panel.getByLabel("Instrument", { exact: true }).fill("meter 4");
  await panel.getByRole("button", { name: "Record the reading" }).tap();
  await panel.locator("tbody tr").nth(before).waitFor();
}
