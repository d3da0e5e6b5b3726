// SPDX-License-Identifier: Apache-2.0
// Who gets in, and what each role sees and may do.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeBrowser } from "./harness/browser";
import { Device, pass } from "./harness/device";
import { Hands } from "./harness/hands";
import { Office } from "./harness/office";
import { crew, password, type Handle } from "./harness/world";
import { readyToUse } from "./steps/answers";
import { fillSignIn, signIn } from "./steps/sign_in";

let office: Office;
let sedge: Hands;
before(async () => {
  office = await Office.start();
  sedge = await Hands.of(office, "sedge");
});
after(async () => (await closeBrowser(), await office.stop()));

const refusal = (device: Device) => device.page.getByRole("alert").filter({ hasText: "Not done" });

test("a wrong password is refused without saying which of both was wrong, and is gone from its field", async () => {
  const phone = await Device.open(office);
  await phone.goto("/");
  const told: string[] = [];
  for (const [handle, typed] of [["sedge", "not the password"], ["nobody", password]] as const) {
    await fillSignIn(phone, handle, typed);
    await refusal(phone).waitFor();
    told.push((await refusal(phone).textContent()) ?? "");
    assert.equal(await phone.page.getByLabel("Password").inputValue(), "");
  }
  assert.equal(told[0], told[1]);
  await signIn(phone, "sedge");
  await phone.close();
});

test("an invitation sets a password once, by the page", async () => {
  const owner = await Hands.of(office, "marrow");
  const { token } = await owner.post<{ token: string }>("/api/v1/crew/bracken/invitation", { password });
  const phone = await Device.open(office);
  const choose = async (secret: string) => {
    await phone.goto(`/welcome?again=${secret.length}#${token}`);
    await phone.page.getByLabel("Your handle in the crew").fill("bracken");
    await phone.page.getByLabel("New password").fill(secret);
    await phone.page.getByRole("button", { name: "Set the password" }).tap();
  };
  await choose("short");
  await refusal(phone).waitFor();
  await choose("another long password");
  await phone.page.getByText("Done, bracken. You can sign in now.").waitFor();
  await choose("yet another long password");
  await refusal(phone).waitFor();
  assert.doesNotMatch(office.log, new RegExp(token), "the token is in the server's log");
  await signIn(phone, "bracken", "another long password");
  await phone.close();
});

test("a link of one device signs another one in, once", async () => {
  const teasel = await Hands.of(office, "teasel");
  const { link } = await teasel.post<{ link: string }>("/api/v1/devices/link", { password });
  const path = link.slice(link.indexOf("/welcome"));
  const phone = await Device.open(office);
  await phone.goto(path);
  await phone.page.getByLabel("What this device is called").fill("teasel phone");
  await phone.page.getByRole("button", { name: "Use this device" }).tap();
  await phone.page.getByRole("heading", { name: "Today" }).waitFor();
  await phone.goto("/more");
  await phone.page.getByText("Signed in as teasel").waitFor();
  await phone.close();
  const other = await Device.open(office);
  await other.goto(path);
  await other.page.getByLabel("What this device is called").fill("somebody's");
  await other.page.getByRole("button", { name: "Use this device" }).tap();
  await refusal(other).waitFor();
  await other.close();
});

test("a session that ran out says so, and goes on where it was once the password is given", async () => {
  const job = await sedge.plan("fenmist-rtu");
  const phone = await Device.open(office);
  await signIn(phone, "sedge");
  await phone.goto(`/jobs/${job}/gate`);
  await phone.page.locator("article.item").waitFor();
  await pass(8 * 3_600_000 + 60_000, office, phone);
  await phone.page.getByText("Your sign-in has run out").waitFor();
  await phone.page.locator(".banners").getByRole("link", { name: "Sign in" }).tap();
  await fillSignIn(phone, "sedge", password);
  await phone.page.getByRole("heading", { name: "Today" }).waitFor();
  await phone.goto(`/jobs/${job}/gate`);
  await phone.page.getByRole("button", { name: "Yes, done" }).tap();
  await phone.page.getByText(/^1 of \d+ met$/).waitFor();
  sedge = await Hands.of(office, "sedge");
  await phone.close();
});

test("signing out leaves nothing to see", async () => {
  const phone = await Device.open(office);
  await signIn(phone, "sedge");
  await phone.goto("/more");
  await phone.page.getByRole("button", { name: "Sign out" }).tap();
  await phone.page.getByRole("heading", { name: "Sign in" }).waitFor();
  await phone.goto("/stock");
  await phone.page.getByRole("heading", { name: "Sign in" }).waitFor();
  await phone.close();
});

/** Starting the fog is a technician's, whoever else is signed in (src/desk/permissions.cpp). */
for (const handle of ["marrow", "teasel"] as const satisfies readonly Handle[])
  test(`a ${crew[handle]} sees the jobs, and may not start the fog`, async () => {
    const job = await sedge.open("fenmist-rtu", readyToUse);
    const desk = await Device.open(office, { name: "office desk" });
    await signIn(desk, handle);
    await desk.page.getByRole("link", { name: new RegExp(`${job}\\b`) }).tap();
    await desk.page.getByRole("button", { name: "Start the fog" }).tap();
    await refusal(desk).waitFor();
    assert.match((await refusal(desk).textContent()) ?? "", /technician/);
    assert.equal((await office.job(job)).state, "planned");
    await desk.close();
  });
