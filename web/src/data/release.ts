// SPDX-License-Identifier: Apache-2.0
// The one write that the office itself must see, where it can: it asks for the password again.
import { Refused } from "../api/http";
import { ask, askOfficeFor } from "./ask";
import { desk } from "./engines";
import { outboxCount } from "./outbox";
import { syncSoon } from "./start";

/** The office decides by what it has, so it must have everything first. */
export async function releaseWithPassword(job: string, password: string): Promise<void> {
  if (desk.value) await syncSoon();
  if (outboxCount.value.waiting > 0)
    throw new Refused(409, { detail: "not everything that was written here has reached the office", hint: "send it first, then release" });
  try {
    await askOfficeFor("releaseJob", { path: { job }, body: { password } });
  } finally {
    // Released or refused: both stand in the book.
    if (desk.value) await syncSoon();
  }
}

/** With no signal: decided by the desk of this device, written down as made here. */
export async function releaseOnDevice(job: string): Promise<void> {
  await ask("releaseJob", { path: { job } });
}
