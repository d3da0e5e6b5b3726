// SPDX-License-Identifier: Apache-2.0
// What stood on hand of an item over time: the movements of its containers, as the desk tells them.
import { askOfficeFor } from "../data/ask";
import { allEntries } from "./entries";
import type { Movement } from "./shapes";

export interface Level {
  ms: number;
  ul: number;
}

/** Movements of one moment make one step. A vessel that moved from place to place stays on hand. */
export function levels(movements: Movement[]): Level[] {
  const steps: Level[] = [];
  let ul = 0;
  for (const { at_ms, ul: moved } of [...movements].sort((a, b) => a.at_ms - b.at_ms || a.seq - b.seq)) {
    ul += moved;
    const last = steps[steps.length - 1];
    if (last?.ms === at_ms) last.ul = ul;
    else steps.push({ ms: at_ms, ul });
  }
  return steps;
}

interface Received {
  container: string;
  product: string;
  part?: string;
}

/** Empty containers too: no list of the desk has them, so their ids come from the entries of their receipt. */
async function containersOf(item: string): Promise<string[]> {
  const received = (await allEntries()).filter((entry) => entry?.kind === "container-received").map((entry) => entry.body as unknown as Received);
  return [...new Set(received.filter(({ product, part }) => (part ? `${product}/${part}` : product) === item).map(({ container }) => container))];
}

const atOnce = 6;

export async function stockHistory(item: string): Promise<Level[]> {
  const ids = await containersOf(item);
  const movements: Movement[] = [];
  for (let at = 0; at < ids.length; at += atOnce) {
    const shown = await Promise.all(ids.slice(at, at + atOnce).map((vessel) => askOfficeFor("showVessel", { path: { vessel } })));
    for (const one of shown) movements.push(...((one.movements ?? []) as unknown as Movement[]));
  }
  return levels(movements);
}
