// SPDX-License-Identifier: Apache-2.0
// Somebody at a desk fills in forms; what came of it is read out of the book.
import assert from "node:assert/strict";
import type { Locator } from "playwright-core";
import type { Device } from "../harness/device";
import type { Hands } from "../harness/hands";

/** Label of a field, what goes in, and which of several fields of that label. */
export type Filled = [label: string, value: string, nth?: number];

export interface Form {
  path: string;
  /** Of the fold-out that hides it. */
  fold?: string;
  fill: Filled[];
  /** Instead of the same fields above: to be refused. None: what is needed must be given before the button works. */
  bad: Filled[];
  button?: string;
  /** The entry that it makes, and members of its body. */
  kind: string;
  body: Record<string, unknown>;
}

interface Entry {
  seq: number;
  kind: string;
  body: Record<string, unknown>;
}

export const entriesFrom = async (hands: Hands, from: number): Promise<Entry[]> => (await hands.get<{ items: Entry[] }>(`/api/v1/book/entries?from=${from}&limit=100`)).items;
export const bookSize = async (hands: Hands): Promise<number> => (await hands.get<{ size: number }>("/api/v1/book/entries?from=0&limit=1")).size;

export async function openFold(device: Device, title: string): Promise<Locator> {
  const fold = device.page.locator("details.fold").filter({ has: device.page.locator("summary", { hasText: title }) });
  await fold.locator("summary").first().click();
  return fold;
}

export async function fillIn(place: Locator, values: Filled[]): Promise<void> {
  for (const [label, value, nth = 0] of values) {
    const field = place.getByLabel(label, { exact: true }).nth(nth);
    if ((await field.evaluate((one) => one.tagName)) === "SELECT") await field.selectOption(value);
    else await field.fill(value);
  }
}

/** Refused with words, and nothing is written; then done, and the book has it. */
export async function submitTwice(device: Device, hands: Hands, form: Form): Promise<void> {
  await device.goto(form.path);
  await device.page.locator("h1").waitFor();
  const place = form.fold ? await openFold(device, form.fold) : device.page.locator("main");
  const button = place.getByRole("button", { name: form.button ?? "Record it", exact: true });
  const before = await bookSize(hands);
  const refusal = place.getByRole("alert");
  if (form.bad.length === 0) assert.ok(await button.isDisabled(), `${form.kind}: an empty form can be sent`);
  else {
    await fillIn(place, [...form.fill, ...form.bad]);
    await button.click();
    await refusal.waitFor();
    assert.match((await refusal.textContent()) ?? "", /Not done.*\S{3}/, form.kind);
    assert.equal(await bookSize(hands), before, `${form.kind}: a refused form wrote something`);
  }
  await fillIn(place, form.fill);
  await button.click();
  await place.getByText("Recorded.", { exact: true }).waitFor();
  assert.equal(await refusal.count(), 0, "the refusal still stands");
  const made = (await entriesFrom(hands, before)).find((entry) => entry.kind === form.kind);
  assert.ok(made, `no ${form.kind} in the book`);
  for (const [name, value] of Object.entries(form.body)) assert.deepEqual(made.body[name], value, `${form.kind}: ${name}`);
}
