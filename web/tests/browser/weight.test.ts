// SPDX-License-Identifier: Apache-2.0
// What the first visit brings over the air, counted by the browser itself as it arrives: compressed, with headers.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeBrowser } from "./harness/browser";
import { Device } from "./harness/device";
import { Office } from "./harness/office";

/** The project's own limit. */
const mostBytes = 250_000;

let office: Office;
before(async () => (office = await Office.start()));
after(async () => (await closeBrowser(), await office.stop()));

test("the first load is lighter than 250 kB", async () => {
  const phone = await Device.open(office, { realTime: true });
  const tools = await phone.context.newCDPSession(phone.page);
  await tools.send("Network.enable");
  const addresses = new Map<string, string>();
  const sizes = new Map<string, number>();
  tools.on("Network.requestWillBeSent", ({ requestId, request }) => addresses.set(requestId, request.url));
  tools.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => sizes.set(addresses.get(requestId) ?? requestId, encodedDataLength));
  await phone.goto("/");
  await phone.page.getByRole("heading", { name: "Sign in" }).waitFor();
  await phone.page.waitForLoadState("networkidle");
  const total = [...sizes.values()].reduce((sum, size) => sum + size, 0);
  const list = [...sizes].map(([address, size]) => `${size} ${address.replace(office.origin, "")}`).join("\n");
  assert.ok([...sizes.keys()].some((address) => /\/assets\/app-/.test(address)), `the app was not counted:\n${list}`);
  assert.ok(total < mostBytes, `${total} bytes:\n${list}`);
  await phone.close();
});
