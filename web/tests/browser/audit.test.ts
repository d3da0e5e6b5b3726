// SPDX-License-Identifier: Apache-2.0
// What the audit shows, proves and hands over.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { closeBrowser } from "./harness/browser";
import { Device } from "./harness/device";
import { Hands } from "./harness/hands";
import { Office } from "./harness/office";
import { readyToUse } from "./steps/answers";
import { openFold } from "./steps/forms";
import { signIn } from "./steps/sign_in";

let office: Office;
let desk: Device;
let job: string;
before(async () => {
  office = await Office.start();
  const sedge = await Hands.of(office, "sedge");
  job = await sedge.hold("fenmist-rtu", readyToUse);
  // More than the container holds: the record shows it as a departure.
  await sedge.post("/api/v1/vessels/F1/draws", { volume: "120 fl oz", job });
  await sedge.post("/api/v1/vessels/F1/draws", { volume: "120 fl oz", job });
  desk = await Device.open(office, { width: 1280, height: 800, touch: false, name: "safety desk" });
  await signIn(desk, "teasel");
});
after(async () => (await desk.close(), await closeBrowser(), await office.stop()));

test("departures are found by a filter, and a filter that fits none says so", async () => {
  const { page } = desk;
  await desk.goto("/audit");
  await page.locator(".departure").first().waitFor();
  const filters = await openFold(desk, "Look at a part of it");
  await filters.getByLabel("Person", { exact: true }).selectOption("marrow");
  await page.getByText("The record shows no departure here.").waitFor();
  await filters.getByLabel("Person", { exact: true }).selectOption("sedge");
  await page.locator(".departure").first().waitFor();
  await filters.getByRole("button", { name: "Look at all of it" }).click();
});

test("a job's life leads to its entries, and an entry to its proof", async () => {
  const { page } = desk;
  await desk.goto("/audit/jobs");
  await page.getByLabel("Find a job", { exact: true }).fill(job);
  await page.getByRole("link", { name: job, exact: true }).click();
  for (const step of ["Job planned", "Gate met", "Fog started", "Fog off"]) await page.getByRole("heading", { name: step, exact: true }).waitFor();
  await page.locator(".step.departs").first().waitFor();
  await page.getByRole("link", { name: /^Entry \d+$/ }).first().click();
  await page.getByRole("button", { name: "Make the proof" }).click();
  await page.getByText(/c2sp\.org\/tlog-proof/).waitFor();
  await desk.goto("/audit/entries/999999");
  await page.getByText("The book has no entry of this number.").waitFor();
});

test("an entry is put right by another, and each leads to the other", async () => {
  const { page } = desk;
  await desk.goto("/audit/jobs");
  await page.getByLabel("Find a job", { exact: true }).fill(job);
  await page.getByRole("link", { name: job, exact: true }).click();
  await page.getByRole("link", { name: /^Entry \d+$/ }).first().click();
  await page.waitForURL(/\/audit\/entries\/\d+$/);
  const wrong = /\d+$/.exec(page.url())?.[0] ?? "";
  const form = await openFold(desk, "Put this entry right");
  await form.getByLabel("What is right", { exact: true }).fill("it was planned the day before");
  await form.getByLabel("Why", { exact: true }).fill("the phone had no signal");
  await form.getByRole("button", { name: "Write it down" }).click();
  const by = page.locator("dt", { hasText: "Corrected by" }).locator("xpath=following-sibling::dd[1]").getByRole("link");
  await by.waitFor();
  await by.click();
  await page.getByText("the phone had no signal", { exact: true }).waitFor();
  await page.getByText("it was planned the day before").waitFor();
  await page.locator("dt", { hasText: "Corrects" }).locator("xpath=following-sibling::dd[1]").getByRole("link", { name: wrong, exact: true }).click();
  await page.waitForURL(`**/audit/entries/${wrong}`);
  // The audit proves the correction by both.
  await desk.goto("/audit");
  await page.locator(".departure", { hasText: `corrects entry ${wrong} (job-planned): the phone had no signal` }).getByRole("link", { name: wrong, exact: true }).waitFor();
});

test("the book is read again, signed, and held against a checkpoint that somebody kept", async () => {
  const { page } = desk;
  await desk.goto("/audit/record");
  await page.getByRole("button", { name: "Read it again" }).click();
  await page.getByText("The record is as it was written").waitFor();
  await page.getByLabel("A checkpoint that somebody kept", { exact: true }).fill("not a checkpoint");
  await page.getByText("This is no checkpoint").waitFor();
  await page.getByRole("button", { name: "Sign the book as it is" }).click();
  const signed = (await page.locator("pre.code").textContent()) ?? "";
  const held = page.getByLabel("A checkpoint that somebody kept", { exact: true });
  await held.fill(signed);
  await page.getByText("The same entries and the same root").waitFor();
  await held.fill(signed.replace(/^\d+$/m, "1"));
  await page.getByText("An older one").waitFor();

  // A witness signs the one that the page gave out, and nothing else of it changes.
  const file = (name: string) => join(office.folder, name);
  writeFileSync(file("held.txt"), signed);
  await office.command(["witness", "key", "--name", "office.example/witness", "--key", file("witness.key")]);
  await office.command(["witness", "sign", file("held.txt"), "--vkey", file("book.db.vkey"), "--key", file("witness.key"), "--out", file("cosigned.txt"), "--first"]);
  await held.fill(readFileSync(file("cosigned.txt"), "utf8"));
  await page.getByText("The same entries and the same root").waitFor();
  await page.getByText("1 witness has signed this checkpoint.").waitFor();
});

test("papers come as they were asked for", async () => {
  const { page } = desk;
  await desk.goto("/audit/papers");
  await page.getByLabel("Job", { exact: true }).selectOption(job);
  for (const [name, begins] of [["PDF Notice for the door", "%PDF"], ["Page to read Notice for the door", "<!"], ["PDF What departs from the rules", "%PDF"]] as const) {
    const address = await page.getByRole("link", { name }).getAttribute("href");
    const answer = await page.evaluate(async (where) => {
      const got = await fetch(where);
      return { status: got.status, text: await got.text() };
    }, address ?? "");
    assert.equal(answer.status, 200, name);
    assert.ok(answer.text.startsWith(begins), name);
  }
});

test("what must be kept is told, and of one person what may not go yet", async () => {
  const { page } = desk;
  await desk.goto("/audit/keep");
  await page.getByText("Medical clearance for a respirator").first().waitFor();
  await page.getByLabel("Person or job", { exact: true }).selectOption("person sedge");
  const kept = page.getByRole("table", { name: "May this go yet?" });
  await kept.waitFor();
  assert.match((await kept.textContent()) ?? "", /30 years/);
});
