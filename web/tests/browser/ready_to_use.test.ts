// SPDX-License-Identifier: Apache-2.0
// A whole job with a product that is ready to use, by touch, on a phone of 390x844.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeBrowser } from "./harness/browser";
import { Device, pass } from "./harness/device";
import { Office } from "./harness/office";
import { readyToUse } from "./steps/answers";
import { meetGate } from "./steps/gate";
import { closeJob, endFog, fogReturn, holdLeft, meetWhileFogging, release, startFog } from "./steps/job";
import { fillPlan, makeJob } from "./steps/plan";
import { signIn } from "./steps/sign_in";

let office: Office;
before(async () => (office = await Office.start()));
after(async () => (await closeBrowser(), await office.stop()));

test("a ready-to-use job, from the sign-in to the close", async () => {
  const phone = await Device.open(office);
  await signIn(phone, "sedge");
  await fillPlan(phone, { product: "Fenmist RTU", area: "2400", returns: 2, fogger: "gust", entrances: "2", van: "heron" });
  // 45 to 60 s per 1,000 sq ft is common practice, no source: 52.5 s times 2.4 is 126 s, half at each return.
  assert.deepEqual(await phone.page.locator(".answer .big").allTextContents(), ["63 s", "63 s"]);
  const job = await makeJob(phone);

  const met = await meetGate(phone, readyToUse);
  for (const words of ["Read the label through.", "Shave where the facepiece seals."]) assert.ok(met.includes(words), words);
  await startFog(phone);
  await fogReturn(phone);
  await fogReturn(phone);
  await meetWhileFogging(phone, readyToUse);
  await endFog(phone, readyToUse.left);

  const left = await holdLeft(phone);
  assert.ok(left > 30 * 60_000, "the label alone asks for 30 minutes");
  assert.ok(await phone.page.getByRole("button", { name: "Release the building" }).isDisabled(), "released while the hold runs");
  await pass(left + 1_000, office, phone);
  await phone.page.getByText("The hold is over. Nobody goes in until a named person releases the building.").waitFor();
  await meetGate(phone, readyToUse);
  await release(phone);
  await meetGate(phone, readyToUse);
  await closeJob(phone);

  const shown = await office.job<{ returns: { actual_ms: number }[] }>(job);
  assert.equal(shown.state, "closed");
  for (const one of shown.returns) assert.ok(one.actual_ms >= 63_000 && one.actual_ms < 63_200, `${one.actual_ms} ms were recorded`);
  await office.command(["book", "verify"]);
  await phone.close();
});
