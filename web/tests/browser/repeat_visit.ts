// SPDX-License-Identifier: Apache-2.0
// Not a test: how long until a plan can be typed on a repeat visit, on a slow phone with a slow signal. The figure stands
// in docs/performance.md.
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
  const tools = await phone.context.newCDPSession(phone.page);
  await tools.send("Network.enable");
  await tools.send("Network.emulateNetworkConditions", network);
  await tools.send("Emulation.setCPUThrottlingRate", { rate: slower });
  const took: number[] = [];
  for (let visit = 0; visit < visits; ++visit) {
    const begin = performance.now();
    await phone.page.goto(`${office.origin}/plan`, { waitUntil: "commit" });
    await phone.page.getByRole("radio", { name: "Fenmist RTU" }).waitFor();
    took.push(Math.round(performance.now() - begin));
  }
  took.sort((a, b) => a - b);
  console.log(`plan usable on a repeat visit: median ${took[visits >> 1]} ms, of ${took.join(", ")}`);
} finally {
  await closeBrowser();
  await office.stop();
}
