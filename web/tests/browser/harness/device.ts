// SPDX-License-Identifier: Apache-2.0
// A phone or a desk of somebody of the crew: a browser context with its own storage, watched by the guards.
import assert from "node:assert/strict";
import type { BrowserContext, Page } from "playwright-core";
import { chromiumAt, theBrowser } from "./browser";
import { Guards } from "./guards";
import type { Office } from "./office";

export interface DeviceOptions {
  width?: number;
  height?: number;
  touch?: boolean;
  /** Written before the page starts, as somebody's choice of before. */
  preferences?: Record<string, unknown>;
  name?: string;
  /** Without the movable clock: for what measures real time. */
  realTime?: boolean;
  /** A folder for the browser's own files: what is kept there is there when the phone is switched on again. */
  profile?: string;
}

/** Long, since the machine may be busy; the tests never wait for it to run out. */
const actionMs = Number(process.env.FOGWRIGHT_PATIENCE_MS ?? 180_000);
/** Ahead of what passes while the clock is being stopped. */
const settleMs = 5_000;

export class Device {
  private constructor(readonly office: Office, readonly context: BrowserContext, readonly page: Page, readonly guards: Guards) {}

  static async open(office: Office, options: DeviceOptions = {}): Promise<Device> {
    const { width = 390, height = 844, touch = true, preferences = {}, name = "heron phone", realTime = false, profile } = options;
    const looks = { viewport: { width, height }, hasTouch: touch, timezoneId: "America/Chicago", locale: "en-US", reducedMotion: "reduce" } as const;
    const context = profile ? await chromiumAt(profile, looks) : await (await theBrowser()).newContext(looks);
    context.setDefaultTimeout(actionMs);
    const guards = new Guards(office.origin);
    await guards.watch(context);
    const chosen = JSON.stringify({ device: name, ...preferences });
    await context.addInitScript((text) => {
      // The blank page before the first has no storage.
      if (location.protocol === "http:" && !localStorage.getItem("fogwright.preferences")) localStorage.setItem("fogwright.preferences", text);
    }, chosen);
    const page = context.pages()[0] ?? (await context.newPage());
    if (!realTime) await page.clock.install({ time: office.clock.now() });
    return new Device(office, context, page, guards);
  }

  async goto(path: string): Promise<void> {
    await this.page.goto(this.office.origin + path);
  }

  /**
   * The time of the page stands still but for what `work` lets pass: figures that are timed to the tenth of a second
   * do not depend on how busy this machine is. Afterwards it is the office's time again.
   */
  async still(work: (passes: (ms: number) => Promise<void>) => Promise<void>): Promise<void> {
    const { clock } = this.page;
    await clock.pauseAt((await this.now()) + settleMs);
    this.office.clock.pass(settleMs);
    await work(async (ms) => {
      this.office.clock.pass(ms);
      await clock.runFor(ms);
    });
    await clock.resume();
    await clock.fastForward(Math.max(0, this.office.clock.now() - (await this.now())));
  }

  now(): Promise<number> {
    return this.page.evaluate(() => Date.now());
  }

  /** Time passes with the screen on. */
  async awake(ms: number): Promise<void> {
    await this.page.clock.fastForward(ms);
  }

  /** Time passes while the phone sleeps: the calendar goes on, the running clock and all timers stand still. */
  async asleep(): Promise<void> {
    await this.page.clock.setSystemTime(this.office.clock.now());
  }

  offline(off: boolean): Promise<void> {
    return this.context.setOffline(off);
  }

  /** Until the phone has all that it needs to work by itself: the pages, the engine, the book's documents. */
  async untilItNeedsNobody(): Promise<void> {
    await this.page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      const kept = () => new Promise<unknown>((resolve) => {
        const opened = indexedDB.open("fogwright");
        opened.onsuccess = () => {
          const asked = opened.result.transaction("book").objectStore("book").get("book");
          asked.onsuccess = () => (opened.result.close(), resolve(asked.result));
        };
      });
      while (!(await kept())) await new Promise((resolve) => setTimeout(resolve, 50));
    });
  }

  /** Fails when the page did what no page may. */
  async close(): Promise<void> {
    await this.context.close();
    assert.deepEqual(this.guards.faults, [], "what the page did that no page may");
  }
}

/** Time passes for the server and for the devices, whose screens are on. */
export async function pass(ms: number, office: Office, ...devices: Device[]): Promise<void> {
  office.clock.pass(ms);
  for (const device of devices) await device.awake(ms);
}
