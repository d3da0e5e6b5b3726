// SPDX-License-Identifier: Apache-2.0
// A real server on loopback with a book of its own.
import { spawn, type ChildProcess } from "node:child_process";
import { cpSync, mkdtempSync } from "node:fs";
import { join } from "node:path";
import { fogwright, programs, scratch, underClock } from "./programs";
import { TestClock } from "./test_clock";

const patienceMs = 30_000;

export class Office {
  private said = "";
  private constructor(readonly folder: string, readonly clock: TestClock, private readonly server: ChildProcess) {}

  /** Starts on a copy of the book that run_browser.mjs prepared, with everybody's password chosen. */
  static async start(): Promise<Office> {
    const folder = mkdtempSync(join(scratch(), "office-"));
    cpSync(join(scratch(), "prepared"), folder, { recursive: true });
    return Office.open(folder);
  }

  static async open(folder: string, beginsMs?: number): Promise<Office> {
    const clock = new TestClock(join(folder, "clock"), beginsMs);
    const words = ["serve", "--book", join(folder, "book.db"), "--port", "0", "--threads", "4", "--invite", "marrow"];
    const server = spawn(join(programs(), "fogwright"), words, { env: underClock(clock.file), stdio: ["ignore", "pipe", "pipe"] });
    // A test that breaks off leaves no server behind.
    process.once("exit", () => server.kill("SIGKILL"));
    const office = new Office(folder, clock, server);
    for (const stream of [server.stdout, server.stderr]) stream?.on("data", (bytes: Buffer) => (office.said += bytes.toString()));
    await office.invitation();
    return office;
  }

  /** The link that the server printed for the owner. */
  async invitation(): Promise<string> {
    const until = Date.now() + patienceMs;
    for (;;) {
      const link = /http:\/\/\S+\/welcome#\S+/.exec(this.said)?.[0];
      if (link) return link;
      if (Date.now() > until || this.server.exitCode !== null) throw new Error(`the server did not start:\n${this.said}`);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  }

  get origin(): string {
    return /http:\/\/[^/\s]+/.exec(this.said)?.[0] ?? "";
  }

  get log(): string {
    return this.said;
  }

  /** One command upon the book, at the time of the tests. */
  command(words: string[], by = "marrow"): Promise<string> {
    const env = { ...underClock(this.clock.file), FOGWRIGHT_BOOK: join(this.folder, "book.db"), FOGWRIGHT_BY: by, FOGWRIGHT_ZONE: "America/Chicago" };
    return fogwright(words, env);
  }

  async job<T>(id: string): Promise<T & { state: string }> {
    return JSON.parse(await this.command(["job", "show", id, "--json"])) as T & { state: string };
  }

  async stop(): Promise<void> {
    if (this.server.exitCode !== null) return;
    const ended = new Promise((resolve) => this.server.once("exit", resolve));
    this.server.kill("SIGTERM");
    await ended;
  }
}
