// SPDX-License-Identifier: Apache-2.0
import type { Device } from "../harness/device";
import { password as everybodys, type Handle } from "../harness/world";

export async function fillSignIn(device: Device, handle: string, password: string): Promise<void> {
  const { page } = device;
  await page.getByLabel("Your handle in the crew").fill(handle);
  await page.getByLabel("Password").fill(password);
  await page.locator("form").getByRole("button", { name: "Sign in" }).click();
}

/** From nothing to today's jobs. */
export async function signIn(device: Device, handle: Handle, password = everybodys): Promise<void> {
  await device.goto("/");
  await fillSignIn(device, handle, password);
  await device.page.getByRole("heading", { name: "Today" }).waitFor();
}
