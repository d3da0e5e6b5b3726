// SPDX-License-Identifier: Apache-2.0
// Run once before the tests: the book and the passwords that every test starts from, in SCRATCH/prepared.
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { choosePasswords } from "./accounts";
import { Office } from "./office";
import { scratch } from "./programs";
import { morningMs } from "./test_clock";
import { makeBook } from "./world";

const hour = 3_600_000;
const folder = join(scratch(), "prepared");
mkdirSync(folder);
await makeBook(folder, morningMs - hour);
const office = await Office.open(folder, morningMs - hour / 2);
try {
  await choosePasswords(office);
} finally {
  await office.stop();
}
