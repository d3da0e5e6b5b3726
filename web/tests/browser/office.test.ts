// SPDX-License-Identifier: Apache-2.0
// Every form of the office: refused with words, then done, and what came of it in the book.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import type { Locator } from "playwright-core";
import { closeBrowser } from "./harness/browser";
import { Device } from "./harness/device";
import { Hands } from "./harness/hands";
import { Office } from "./harness/office";
import { labels } from "./harness/programs";
import { password } from "./harness/world";
import { bookSize, entriesFrom, fillIn, openFold, submitTwice, type Form } from "./steps/forms";
import { signIn } from "./steps/sign_in";

let office: Office;
let owner: Hands;
let desk: Device;
before(async () => {
  office = await Office.start();
  owner = await Hands.of(office, "marrow");
  desk = await Device.open(office, { width: 1280, height: 800, touch: false, name: "office desk" });
  await signIn(desk, "marrow");
});
after(async () => (await desk.close(), await closeBrowser(), await office.stop()));

const owners: Form[] = [
  { path: "/office/receive", fill: [["Product", "fenmist-rtu"], ["Lot", "FR-2610"], ["Last day", "2027-01-31"], ["It holds", "1 gal"], ["Place", "shop"], ["Its id, if known", "F9"], ["Cost, if known", "62.50"]], bad: [["It holds", "much"]], button: "Receive it", kind: "container-received", body: { container: "F9", lot: "FR-2610", expires: "2027-01-31", size_ul: 3_785_411, place: "shop" } },
  { path: "/office/shelf", fold: "Count a container", fill: [["Which one", "F2"], ["What it holds, measured", "60"]], bad: [["What it holds, measured", "some"]], kind: "counted", body: { of: "F2" } },
  { path: "/office/order", fold: "When to order again", fill: [["Product", "fenmist-rtu"], ["Ordered at once", "4 gal"], ["Days until it comes, if known", "5"]], bad: [["Ordered at once", "a case"]], kind: "reorder-set", body: { product: "fenmist-rtu" } },
  { path: "/office/crew", fold: "Enrol somebody", fill: [["Handle", "dunlin"], ["Roles", "technician"], ["Name, if known", "Dunlin Quay"]], bad: [["Handle", "marrow"]], button: "Enrol", kind: "person-enrolled", body: { handle: "dunlin", roles: ["technician"] } },
  { path: "/office/crew/sedge", fold: "Add a credential", fill: [["Facepiece", "half-mask"], ["Model of the facepiece", "Saltwing 20"], ["Size", "L"], ["Issued", "2026-05-04"], ["Last day", "2027-05-04"]], bad: [["Last day", "2026-05-01"]], kind: "credential-added", body: { handle: "sedge", what: "fit-test", facepiece_model: "Saltwing 20", expires: "2027-05-04" } },
  { path: "/office/crew/bracken", fold: "Other roles", fill: [["Roles", "technician,safety-officer"], ["Why", "took the course"]], bad: [], kind: "person-roles-changed", body: { roles: ["technician", "safety-officer"] } },
  { path: "/office/gear", fold: "Add a fogger", fill: [["Name", "squall"], ["Tank, if known", "64"]], bad: [["Tank, if known", "a lot"]], kind: "fogger-added", body: { fogger: "squall" } },
  { path: "/office/places", fold: "Record a temperature", fill: [["Place", "heron"], ["Temperature", "68 F"]], bad: [["Temperature", "warm"]], kind: "storage-read", body: { place: "heron" } },
  { path: "/office/places", fold: "Add a shop or van", fill: [["Name", "brent"], ["Kind", "van"]], bad: [["Name", "heron"]], kind: "place-added", body: { place: "brent", type: "van" } },
];
for (const form of owners) test(`an owner's form: ${form.kind}`, () => submitTwice(desk, owner, form));

test("a code on a delivery fills in lot and last day", async () => {
  await desk.context.addInitScript(() => {
    const code = "(01)09506000134352(17)270228(10)FR-2611";
    Object.assign(globalThis, { BarcodeDetector: class { detect = async () => [{ rawValue: code }]; } });
    navigator.mediaDevices.getUserMedia = async () => document.createElement("canvas").captureStream();
    HTMLMediaElement.prototype.play = async () => undefined;
  });
  const { page } = desk;
  await desk.goto("/office/receive");
  await page.getByRole("button", { name: "Scan the code" }).click();
  await page.getByText("Lot and last day were read from the code").waitFor();
  assert.equal(await page.getByLabel("Lot", { exact: true }).inputValue(), "FR-2611");
  assert.equal(await page.getByLabel("Last day", { exact: true }).inputValue(), "2027-02-28");
  await page.getByLabel("Product", { exact: true }).selectOption("fenmist-rtu");
  await page.getByLabel("It holds", { exact: true }).fill("128");
  await page.getByRole("button", { name: "Receive it" }).click();
  await page.getByRole("link", { name: /^Look at / }).click();
  await page.getByText("lot FR-2611").waitFor();
});

test("an invalid label is told with all its faults, a valid one is adopted and stands beside the one before", async () => {
  const { page } = desk;
  const profile = readFileSync(join(labels(), "palelight-hp.toml"), "utf8");
  const lines = profile.split("\n");
  const at = (name: string) => lines.findIndex((line) => line.startsWith(`${name} = `));
  const wrong = lines.map((line, n) => (n === at("signal_word") ? 'signal_word = "loud"' : n === at("registration") ? "registration = 7" : line)).join("\n");
  const before = await bookSize(owner);
  await desk.goto("/office/labels/adopt");
  await page.getByLabel("The profile", { exact: true }).fill(wrong);
  await page.getByRole("button", { name: "Adopt it" }).click();
  await page.getByText("Not adopted: 2 faults").waitFor();
  for (const name of ["signal_word", "registration"]) await page.getByText(`Line ${at(name) + 1}, column`).waitFor();
  assert.equal(await bookSize(owner), before);
  await page.locator("input[type=file]").setInputFiles({ name: "palelight.toml", mimeType: "text/plain", buffer: Buffer.from(`${profile}\n# Compared with the print.\n`) });
  await page.getByRole("button", { name: "Adopt it" }).click();
  await page.getByText("palelight-hp is worked by this label from now on").waitFor();
  assert.deepEqual((await entriesFrom(owner, before)).map((entry) => entry.kind), ["label-adopted"]);
  await page.getByRole("link", { name: "Compare versions" }).click();
  await page.getByText("# Compared with the print.").waitFor();
});

test("a safety officer's forms: a cartridge, its end, a catch test is not theirs", async () => {
  const officer = await Hands.of(office, "teasel");
  const device = await Device.open(office, { width: 1280, height: 800, touch: false, name: "safety desk" });
  await signIn(device, "teasel");
  await submitTwice(device, officer, { path: "/office/gear", fold: "Register a cartridge", fill: [["Cartridge", "y7"], ["Model", "Saltwing OV/AG"], ["Words printed on it", "organic vapor/acid gas, P100"], ["Change schedule", "8 h"], ["The schedule comes from", "the maker's table"]], bad: [["Change schedule", "long"]], kind: "cartridge-registered", body: { cartridge: "y7", words: ["organic vapor/acid gas", "P100"], schedule_minutes: 480 } });
  const fold = await openFold(device, "Take a cartridge out of use");
  await fold.getByLabel("Cartridge", { exact: true }).selectOption("y7");
  await fold.getByLabel("Why", { exact: true }).fill("dropped in the wash");
  await fold.getByRole("button", { name: "Destroyed, out of use" }).click();
  await device.page.locator("tr", { hasText: "y7" }).waitFor({ state: "detached" });
  assert.equal(await device.page.getByText("Add a fogger").count(), 0);
  await device.close();
});

test("a technician's catch test is recorded; the writes of the office are not shown to them", async () => {
  const sedge = await Hands.of(office, "sedge");
  const device = await Device.open(office, { width: 1280, height: 800, touch: false, name: "shop desk" });
  await signIn(device, "sedge");
  const runs = (time: string): Form["fill"] => [0, 1, 2].flatMap((nth): Form["fill"] => [["Caught", String(160 + nth), nth], ["Time", time, nth]]);
  await submitTwice(device, sedge, { path: "/office/gear/foggers/gust", fold: "Record a catch test", fill: runs("60"), bad: [["Time", "soon", 1]], kind: "fogger-tested", body: { fogger: "gust" } });
  await device.page.getByText("more than a tenth").waitFor();
  for (const [path, ready, hidden] of [
    ["/office/crew", "Signed in", "Enrol somebody"], ["/office/crew/sedge", "Credentials", "Add a credential"], ["/office/labels", "Fenmist RTU", "Adopt a label"],
    ["/office/order", "Reorder", "When to order again"], ["/office/places", "heron", "Add a shop or van"], ["/office/gear", "gust", "Register a cartridge"],
  ] as const) {
    await device.goto(path);
    await device.page.getByText(ready).first().waitFor();
    await device.page.locator("table").first().waitFor();
    assert.equal(await device.page.getByText(hidden, { exact: true }).count(), 0, `${path} offers ${hidden} to a technician`);
  }
  await device.close();
});

test("a device of one's own is let in by a code that can be read, and signed out again", async () => {
  const { page } = desk;
  await desk.goto("/office/crew");
  const fold = await openFold(desk, "Sign in another device of yours");
  await fold.getByLabel("Your password, once more", { exact: true }).fill("not the password");
  await fold.getByRole("button", { name: "Make the code" }).click();
  await fold.getByRole("alert").waitFor();
  await fold.getByLabel("Your password, once more", { exact: true }).fill(password);
  await fold.getByRole("button", { name: "Make the code" }).click();
  const code = fold.getByRole("img", { name: "Code for the device of marrow" });
  const { width } = (await code.boundingBox()) ?? { width: 0 };
  assert.ok(width >= 200, `the code is ${width} px wide`);
  const link = (await fold.locator("pre.code").textContent()) ?? "";
  const phone = await Device.open(office, { name: "owner's phone" });
  await phone.goto(link.replace(/^https?:\/\/[^/]+/, ""));
  await phone.page.getByRole("button", { name: "Use this device" }).tap();
  await phone.page.getByRole("heading", { name: "Today" }).waitFor();
  await desk.goto("/office/crew");
  await page.locator("tr", { hasText: "owner's phone" }).getByRole("button", { name: "Sign it out" }).click();
  await page.locator("tr", { hasText: "owner's phone" }).waitFor({ state: "detached" });
  await phone.close();
});

test("what was typed wrongly off a label is put right on the container's page", async () => {
  const { page } = desk;
  const before = await bookSize(owner);
  await desk.goto("/stock/F2");
  await page.getByRole("button", { name: "Put right" }).click();
  await page.getByLabel("Lot on the container", { exact: true }).fill("F-7201");
  const record = page.getByRole("button", { name: "Record it" });
  assert.ok(await record.isDisabled(), "it can be put right without a reason");
  await page.getByLabel("Why it is put right", { exact: true }).fill("two digits were swapped");
  await record.click();
  await page.getByText(/lot F-7201 \(entered as .+\)/).waitFor();
  const made = await entriesFrom(owner, before);
  assert.deepEqual(made.map(({ kind, body }) => [kind, body.container, body.lot]), [["container-corrected", "F2", "F-7201"]]);
});

test("a container is drawn from, moved and disposed of", async () => {
  const { page } = desk;
  for (const [act, label, value, kind] of [["Draw", "Volume", "4", "drawn"], ["Move", "To which place", "plover", "container-moved"], ["Dispose", "How it was disposed of", "as its label says", "disposed"]] as const) {
    const before = await bookSize(owner);
    await desk.goto("/stock/F2");
    await page.getByRole("button", { name: new RegExp(`^${act}`) }).click();
    const field = page.getByLabel(label, { exact: true });
    if ((await field.count()) > 0) await field.fill(value);
    else await page.getByText(value, { exact: true }).click();
    await page.getByRole("button", { name: "Record it" }).click();
    for (let tries = 0; (await bookSize(owner)) === before && tries < 100; tries++) await page.waitForTimeout(50);
    assert.deepEqual((await entriesFrom(owner, before)).map((entry) => entry.kind), [kind]);
  }
});

test("a job that was done without the tool is written down as it was, with its departures", async () => {
  const { page } = desk;
  const job = await owner.plan("fenmist-rtu");
  const before = await bookSize(owner);
  await desk.goto(`/jobs/${job}`);
  await page.getByRole("link", { name: "It was done without this tool" }).click();
  const record = page.getByRole("button", { name: "Record it as it was" });
  await record.waitFor();
  assert.ok(await record.isDisabled(), "without times and a reason");
  await fillIn(page.locator("main"), [["Fog on", "2026-05-11T07:08"], ["Fog off", "2026-05-11T07:05"], ["Seconds at return 1, if known", "62"], ["Seconds at return 2, if known", "61.5"], ["Used, if measured", "14"], ["Why it comes late", "the phone was dead"]]);
  await page.getByRole("group", { name: "Read the label through" }).getByText("yes", { exact: true }).click();
  await record.click();
  await page.getByRole("alert").getByText("not in this order before now").waitFor();
  assert.equal(await bookSize(owner), before);
  await fillIn(page.locator("main"), [["Fog on", "2026-05-11T07:05"], ["Fog off", "2026-05-11T07:08"]]);
  await record.click();
  await page.getByText(`${job} is in the record as it was done`).waitFor();
  for (let tries = 0; (await bookSize(owner)) === before && tries < 100; tries++) await page.waitForTimeout(50);
  const made = (await entriesFrom(owner, before)).find((entry) => entry.kind === "job-recorded");
  const started = Date.UTC(2026, 4, 11, 12, 5); // Chicago is five hours behind in May
  const { started_ms, ended_ms, returns, met, used_ul } = made?.body as { started_ms: number; ended_ms: number; returns: { actual_ms: number }[]; met: object; used_ul: number };
  assert.deepEqual([started_ms, ended_ms, returns.map((one) => one.actual_ms), Object.keys(met), used_ul], [started, started + 180_000, [62_000, 61_500], ["label-read"], 414_030]);
  assert.equal((await owner.job(job)).state, "holding");
  const { departures } = await owner.get<{ departures: { rule: string; job?: string }[] }>(`/api/v1/audit?job=${job}`);
  for (const rule of ["done-without-tool", "start-without-item"]) assert.ok(departures.some((one) => one.rule === rule), `${rule} in ${departures.map((one) => one.rule).join(", ")}`);
  await page.getByRole("link", { name: "Go on" }).click();
  await page.locator(".hold-clock").waitFor();
});

/** A grave form about what the page shows: with its reason, and what the book and the page say then. */
async function end(device: Device, hands: Hands, place: Locator, button: string, kind: string, body: Record<string, unknown>): Promise<void> {
  const before = await bookSize(hands);
  const send = place.getByRole("button", { name: button, exact: true });
  assert.ok(await send.isDisabled(), `${kind}: without a reason`);
  await place.getByLabel("Why", { exact: true }).fill("as the test says");
  await send.click();
  for (let tries = 0; (await bookSize(hands)) === before && tries < 100; tries++) await device.page.waitForTimeout(50);
  const [made] = await entriesFrom(hands, before);
  assert.equal(made?.kind, kind);
  assert.deepEqual(Object.fromEntries(Object.keys(body).map((name) => [name, made?.body[name]])), body);
}

test("a credential that no longer holds is struck, and stays in the list", async () => {
  const { page } = desk;
  await desk.goto("/office/crew/bracken");
  const row = page.locator("tr", { hasText: "applicator's licence" });
  await row.getByRole("button", { name: "No longer holds" }).click();
  await end(desk, owner, page.locator("section").filter({ has: page.getByRole("heading", { name: /^It no longer holds/ }) }), "Record that it no longer holds", "credential-withdrawn", { why: "as the test says" });
  await row.getByText("withdrawn").waitFor();
});

test("a fogger goes out of use", async () => {
  const { page } = desk;
  await desk.goto("/office/gear/foggers/gust");
  await end(desk, owner, await openFold(desk, "Take it out of use"), "Out of use from now on", "fogger-retired", { fogger: "gust", why: "as the test says" });
  await page.getByText("Out of use", { exact: true }).waitFor();
});

test("a label that no longer holds leaves its product without one", async () => {
  const { page } = desk;
  await desk.goto("/office/labels");
  const fold = await openFold(desk, "A label no longer holds");
  await fold.getByLabel("Label of", { exact: true }).selectOption("brackwater-20");
  await end(desk, owner, fold, "Work by it no more", "label-retired", { product: "brackwater-20" });
  await page.locator("tr", { hasText: "Brackwater 20" }).getByText("none in use").waitFor();
});

test("whoever leaves the crew is signed out and takes no more part", async () => {
  const { page } = desk;
  const phone = await Device.open(office, { name: "bracken's phone" });
  await signIn(phone, "bracken");
  await desk.goto("/office/crew/bracken");
  await end(desk, owner, await openFold(desk, "Leaves the crew"), "Takes no more part", "person-retired", { handle: "bracken" });
  await page.getByText("No longer in the crew").waitFor();
  const status = await phone.page.evaluate(async () => (await fetch("/api/v1/jobs")).status);
  assert.ok(status === 401 || status === 403, `bracken still reads the jobs: ${status}`);
  await phone.close();
});
