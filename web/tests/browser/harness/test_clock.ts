// SPDX-License-Identifier: Apache-2.0
// The time of the demo world, for the server (libfaketime reads it out of a file) and for the browsers (Playwright's
// clock). It runs as fast as the real one and can be moved ahead.
import { renameSync, writeFileSync } from "node:fs";

/** Monday, 11 May 2026, 08:00 in Chicago. */
export const morningMs = Date.UTC(2026, 4, 11, 13);

export class TestClock {
  private offsetMs: number;

  constructor(readonly file: string, beginsMs = morningMs) {
    this.offsetMs = beginsMs - Date.now();
    this.tell();
  }

  now(): number {
    return Date.now() + this.offsetMs;
  }

  /** Moves the server's time; it looks at the file each time it asks for the time. */
  pass(ms: number): void {
    this.offsetMs += ms;
    this.tell();
  }

  private tell(): void {
    const seconds = (this.offsetMs / 1000).toFixed(3);
    // By renaming, so that no reader finds half a number.
    writeFileSync(`${this.file}.new`, `${this.offsetMs < 0 ? "" : "+"}${seconds}\n`);
    renameSync(`${this.file}.new`, this.file);
  }
}
