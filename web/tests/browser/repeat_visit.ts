// SPDX-License-Identifier: Apache-2.0
// Not a test: how long until a plan can be typed, and until its answer stands, on a repeat visit with a slow phone and a
// slow signal. The figures stand in docs/performance.md.
//   node tests/run_browser.mjs PROGRAMS repeat_visit
import { closeBrowser } from "./harness/browser";
import { Device } from "./harness/device";
import { Office } from "./harness/office";
import { fillPlan } from "./steps/plan";
import { signIn } from "./steps/sign_in";

const visits = 7;
/** A phone at a quarter of this machine's pace; 1.6 Mbit/s down, 0.75 up, 150 ms: common practice for a slow 4G, no source. */
const slower = 4;
const network = { offline: false, latency: 150, downloadThroughput: (1.6 * 1e6) / 8, uploadThroughput: (0.75 * 1e6) / 8 };

const office = await Office.start();
try {
  const phone = await Device.open(office, { realTime: true });
  await signIn(phone, "sedge");
  await fillPlan(phone, { product: "Fenmist RTU", area: "2400" });
  await phone.untilItNeedsNobody();
  await phone.page.waitForFunction(() => navigator.serviceWorker.controller);
  const tools = await phone.context.newCDPSession(phone.page);
  await tools.send("Network.enable");
  await tools.send("Network.emulateNetworkConditions", network);
  await tools.send("Emulation.setCPUThrottlingRate", { rate: slower });
  const typed: number[] = [];
  const answered: number[] = [];
  for (let visit = 0; visit < visits; ++visit) {
    const begin = performance.now();
    await phone.page.goto(`${office.origin}/plan`, { waitUntil: "commit" });
    await phone.page.getByRole("radio", { name: "Fenmist RTU" }).check();
    typed.push(Math.round(performance.now() - begin));
    await phone.page.getByLabel("Conditioned floor area").fill("2400");
    await phone.page.locator(".answer .seconds li").waitFor();
    answered.push(Math.round(performance.now() - begin));
  }
  for (const [what, took] of [["a plan can be typed", typed], ["its answer stands", answered]] as const) {
    took.sort((a, b) => a - b);
    console.log(`repeat visit, ${what}: median ${took[visits >> 1]} ms, of ${took.join(", ")}`);
  }
} finally {
  await closeBrowser();
  await office.stop();
}
