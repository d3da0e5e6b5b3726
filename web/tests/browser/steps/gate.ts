// SPDX-License-Identifier: Apache-2.0
import assert from "node:assert/strict";
import type { Device } from "../harness/device";

/** What is typed where a plain yes does not do, by a part of the question. */
export interface Answers {
  registration: string;
  containers: string[];
  lastDay: string;
  respirator: string;
  cartridge: string;
  tank: string;
  left: string;
  batch?: string;
}

const patterns = (answers: Answers): [RegExp, string][] => [
  [/registration number/, answers.registration],
  [/Ids of the containers/, answers.containers.join(" ")],
  [/Last day on the container/, answers.lastDay],
  [/How much is left in the tank/, answers.left],
  [/How much is in the tank/, answers.tank],
  [/How long will it be worn/, "45"],
  [/How long was it worn/, "40"],
  [/How many animals/, "0"],
  [/How many people/, "3"],
  [/entrances/, "2"],
  [/signs/, "2"],
];

/** Picks of the list beside a field. */
const picksOf = (answers: Answers, question: string): string[] => {
  // Parts that went into the batch are used up, and so not listed: their names are typed.
  if (/Ids of the containers/.test(question)) return answers.batch ? [] : answers.containers;
  if (/Id of the batch/.test(question)) return [answers.batch ?? ""];
  if (/Name of the cartridge/.test(question)) return [answers.cartridge];
  // As the page says it: the kind without the hyphen of the record.
  if (/Kind, model and size/.test(question)) return [answers.respirator.replace("-", " ")];
  return /Handle of the person/.test(question) ? ["bracken"] : [];
};

async function answerItem(device: Device, answers: Answers): Promise<void> {
  const item = device.page.locator("article.item");
  const yes = item.getByRole("button", { name: "Yes, done" });
  if (await yes.isVisible()) return yes.tap();
  const question = (await item.locator(".field label").first().textContent()) ?? "";
  const picks = picksOf(answers, question);
  for (const pick of picks) await item.locator(".picks").getByRole("button", { name: pick, exact: true }).tap();
  if (picks.length === 0) {
    const known = patterns(answers).find(([pattern]) => pattern.test(question));
    assert.ok(known, `no answer is known to the question "${question}"`);
    await item.locator(".field input").first().fill(known[1]);
  }
  await item.getByRole("button", { name: "Record it" }).tap();
}

const words = (device: Device) => device.page.locator("#item-words");
const done = (device: Device) => device.page.getByText("Nothing is open here");

const toGate = (device: Device) => device.page.getByRole("link", { name: /^Meet \d+ open item/ });

/** Meets what is open now, one item at a time; gives the items in order. `by`: the link that leads there. */
export async function meetGate(device: Device, answers: Answers, by = toGate(device), each?: () => Promise<void>): Promise<string[]> {
  const met: string[] = [];
  await by.tap();
  for (;;) {
    await words(device).or(done(device)).first().waitFor();
    if (await done(device).isVisible()) break;
    const now = (await words(device).textContent()) ?? "";
    assert.notEqual(now, met.at(-1), "the item is still open after its answer");
    await answerItem(device, answers);
    await words(device).filter({ hasNotText: now }).or(done(device)).first().waitFor();
    met.push(now);
    await each?.();
  }
  await device.page.getByRole("link", { name: "Go on with the job" }).tap();
  return met;
}
