// SPDX-License-Identifier: Apache-2.0
// A small book of the demo world, made by commands: crew, credentials, labels, stock, fogger, cartridges.
import { join } from "node:path";
import { fogwright, labels, underClock } from "./programs";
import { TestClock } from "./test_clock";

export const password = "a long enough password";
export const crew = {
  marrow: "owner",
  teasel: "safety-officer",
  sedge: "technician",
  bracken: "technician",
} as const;
export type Handle = keyof typeof crew;

export const products = ["fenmist-rtu", "brackwater-20", "palelight-hp"];

function crewCommands(): [string, string[]][] {
  const commands: [string, string[]][] = [["marrow", ["book", "create", "--origin", "quillfen.example/tarn-vale"]]];
  for (const [handle, role] of Object.entries(crew)) commands.push(["marrow", ["crew", "enrol", handle, "--role", role]]);
  for (const handle of ["sedge", "bracken"]) {
    const credential = (what: string, ...more: string[]) => commands.push(["teasel", ["crew", "credential", handle, "--what", what, "--issued", "2026-02-10", ...more]]);
    credential("licence", "--expires", "2026-12-31", "--number", "TV-104");
    credential("medical-clearance", "--expires", "2027-01-11");
    for (const facepiece of ["full-facepiece", "half-mask"]) credential("fit-test", "--facepiece", facepiece, "--model", "Saltwing 40", "--size", "M");
  }
  return commands;
}

function gearCommands(): [string, string[]][] {
  const cartridge = (name: string, model: string, words: string[]): [string, string[]] =>
    ["teasel", ["cartridge", "register", name, "--model", model, ...words.flatMap((word) => ["--words", word]), "--schedule", "8 h", "--basis", "the maker's table"]];
  return [
    ["marrow", ["firm", "set", "Quillfen Duct Care", "--contact", "Office, day and night=555-0100"]],
    ["marrow", ["place", "add", "shop", "--type", "shop"]],
    ["marrow", ["place", "add", "heron", "--type", "van"]],
    ["marrow", ["place", "add", "plover", "--type", "van"]],
    ...products.map((product): [string, string[]] => ["teasel", ["product", "adopt", join(labels(), `${product}.toml`)]]),
    ["marrow", ["fogger", "add", "gust", "--tank", "1/2 gal", "--empty-weight", "9 lb"]],
    ["sedge", ["fogger", "test", "gust", "--catch", "178 mL in 60 s", "--catch", "182 mL in 60 s", "--catch", "180 mL in 60 s"]],
    cartridge("y1", "Saltwing OV/AG", ["organic vapor/acid gas", "P100"]),
    cartridge("p1", "Saltwing P", ["P100"]),
  ];
}

function stockCommands(): [string, string[]][] {
  const receive = (product: string, id: string, lot: string, size: string, ...more: string[]): [string, string[]] =>
    ["sedge", ["stock", "receive", product, "--id", id, "--lot", lot, "--size", size, "--expires", "2026-11-30", "--place", "heron", ...more]];
  return [
    receive("fenmist-rtu", "F1", "FR-2601", "1 gal", "--cost", "62.50"),
    receive("fenmist-rtu", "F2", "FR-2602", "1 gal"),
    receive("brackwater-20", "A1", "BW-0417", "1 qt", "--part", "Part A concentrate"),
    receive("brackwater-20", "B1", "BW-0418", "1 qt", "--part", "Part B activator (citric acid)"),
  ];
}

/** Writes the book into the folder; its time begins an hour before the morning of the tests. */
export async function makeBook(folder: string, beginsMs: number): Promise<string> {
  const book = join(folder, "book.db");
  const clock = new TestClock(join(folder, "clock"), beginsMs);
  const env = { ...underClock(clock.file), FOGWRIGHT_BOOK: book, FOGWRIGHT_ZONE: "America/Chicago" };
  for (const [by, words] of [...crewCommands(), ...gearCommands(), ...stockCommands()]) await fogwright(words, { ...env, FOGWRIGHT_BY: by });
  return book;
}
