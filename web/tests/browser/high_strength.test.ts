// SPDX-License-Identifier: Apache-2.0
// A whole job with a high-strength product, the mix as well, by touch; readings end the hold before its time.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeBrowser } from "./harness/browser";
import { Device, pass } from "./harness/device";
import { Office } from "./harness/office";
import { highStrength } from "./steps/answers";
import { meetGate } from "./steps/gate";
import { takeReading } from "./steps/hold";
import { closeJob, endFog, fogReturn, holdLeft, meetWhileFogging, release, startFog } from "./steps/job";
import { mixForJob } from "./steps/mix";
import { fillPlan, makeJob } from "./steps/plan";
import { signIn } from "./steps/sign_in";

let office: Office;
before(async () => (office = await Office.start()));
after(async () => (await closeBrowser(), await office.stop()));

test("a high-strength job, released on readings", async () => {
  const phone = await Device.open(office);
  await signIn(phone, "sedge");
  await fillPlan(phone, { product: "Brackwater 20", area: "2400", returns: 2, fogger: "gust", entrances: "2", van: "heron" });
  // 29 CFR 1910.134(d)(3)(i)(A), table 1: a full facepiece has 50 where a half mask has 10.
  await phone.page.getByText("full facepiece, organic vapor/acid gas, P100").waitFor();
  const job = await makeJob(phone);

  const answers = { ...highStrength, batch: await mixForJob(phone, job, ["A1", "B1"]) };
  await phone.goto(`/jobs/${job}`);
  await meetGate(phone, answers);
  await startFog(phone);
  await fogReturn(phone);
  await fogReturn(phone);
  await meetWhileFogging(phone, highStrength);
  await endFog(phone, highStrength.left);

  await pass((await holdLeft(phone)) + 1_000, office, phone);
  await phone.page.getByText("Hold runs: nobody goes in").waitFor();
  assert.ok(await phone.page.getByRole("button", { name: "Release the building" }).isDisabled(), "the floor alone releases nobody");
  // 29 CFR 1910.1000, table Z-1: 0.1 ppm of chlorine dioxide, 0.3 mg/m³.
  await takeReading(phone, "0.02");
  await pass(16 * 60_000, office, phone);
  await takeReading(phone, "0.02");
  await phone.page.getByText("The hold is over. Nobody goes in until a named person releases the building.").waitFor();

  await meetGate(phone, highStrength);
  await release(phone);
  await meetGate(phone, highStrength);
  await closeJob(phone);
  assert.equal((await office.job(job)).state, "closed");
  await office.command(["book", "verify"]);
  await phone.close();
});
