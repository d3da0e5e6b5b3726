// SPDX-License-Identifier: Apache-2.0
// What a first visit brings over the air until a plan can be read, counted by the browser itself as it arrives:
// compressed, with headers.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import type { Route } from "playwright-core";
import { closeBrowser } from "./harness/browser";
import { Device } from "./harness/device";
import { Office } from "./harness/office";
import { fillSignIn } from "./steps/sign_in";
import { password, products } from "./harness/world";

/** The project's own limit. */
const mostBytes = 250_000;

const settle = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

let office: Office;
before(async () => (office = await Office.start()));
after(async () => (await closeBrowser(), await office.stop()));

test("the first visit up to a plan is lighter than 250 kB, the engine that plans with it", async () => {
  const phone = await Device.open(office);
  const { page } = phone;
  const tools = await phone.context.newCDPSession(page);
  await tools.send("Network.enable");
  const addresses = new Map<string, string>();
  const sizes = new Map<string, number>();
  tools.on("Network.requestWillBeSent", ({ requestId, request }) => addresses.set(requestId, request.url.replace(office.origin, "")));
  tools.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => sizes.set(requestId, encodedDataLength));
  const brought = (pattern: RegExp) => [...sizes.keys()].some((id) => pattern.test(addresses.get(id) ?? ""));
  // The rest comes after a pause, whatever somebody does meanwhile; here it is held up until the plan stands.
  const rest: Route[] = [];
  let over = false;
  await page.route(/\/assets\/engine-/, (route) => (over ? route.continue() : void rest.push(route)));
  await phone.goto("/plan");
  await fillSignIn(phone, "sedge", password);
  await page.getByRole("radio", { name: "Fenmist RTU" }).check();
  // One is in the middle of writing when the engine and the labels are there.
  while (!brought(/planner-.*wasm/) || [...sizes.keys()].filter((id) => /\/labels\//.test(addresses.get(id) ?? "")).length < products.length) await settle(50);
  await settle(1_000);
  await page.getByLabel("Conditioned floor area").fill("2400");
  await page.locator(".answer .seconds li").waitFor();
  const total = [...sizes.values()].reduce((sum, size) => sum + size, 0);
  const list = [...sizes].map(([id, size]) => `${size} ${addresses.get(id)}`).join("\n");
  assert.ok(brought(/\/assets\/app-/) && brought(/\/assets\/planner-.*wasm/), `something was not counted:\n${list}`);
  assert.ok(!brought(/^\/api\/v1\/plan/), `the office made the plan:\n${list}`);
  assert.ok(total < mostBytes, `${total} bytes:\n${list}`);
  console.log(`# first visit up to a plan: ${total} bytes`);
  over = true;
  for (const route of rest) await route.continue();
  await phone.untilItNeedsNobody();
  await phone.close();
});
