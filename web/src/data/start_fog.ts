// SPDX-License-Identifier: Apache-2.0
// The start of the fog. Somebody may have gone in meanwhile and told another phone: the desk of this one decides by the
// office's latest where it can be had soon, and by what it has where it cannot.
import { ask } from "./ask";
import { desk } from "./engines";
import { syncSoon } from "./start";

/** A signal that is there in name only must not hold anybody up at the valve. */
const patienceMs = 3_000;

async function inStep(): Promise<void> {
  if (desk.value) await Promise.race([syncSoon(), new Promise<void>((resolve) => setTimeout(resolve, patienceMs))]);
}

/** Errors: as those of `ask`. */
export async function startFog(job: string): Promise<void> {
  await inStep();
  try {
    await ask("startJob", { path: { job } });
  } finally {
    // Started or refused: both stand in the book.
    await inStep();
  }
}
