// SPDX-License-Identifier: Apache-2.0
// Two clocks: the calendar, which anybody can turn, and the browser's running one, which stands still while many phones
// sleep. A hold is the smaller of what both say, so sleep makes it longer. Only the office's clock may set that right:
// where it agreed with the calendar before the phone slept and agrees again after, the calendar counted right all along,
// and a new running clock (`boot`) begins, as after a restart. Without a signal the hold stays the longer one.
import { Observable } from "../observable";
import { randomHex } from "./identity";

export interface TimeSource {
  now(): number;
  running(): number;
}

export interface Moment {
  now_ms: number;
  boot: string;
  uptime_ms: number;
}

/** More than timers and clock corrections explain. */
const gapMs = 2_000;
/** Beyond this the server remarks on a device's clock too. */
export const agreesMs = 2 * 60_000;

export class Clock {
  private boot = randomHex(16);
  private apart: number;
  private agreed = false;
  /** Milliseconds that the calendar is ahead of the running clock since this boot began: sleep, or a turned clock. */
  readonly unexplainedMs = new Observable(0);

  constructor(private readonly source: TimeSource) {
    this.apart = source.now() - source.running();
  }

  moment(): Moment {
    this.look();
    return { now_ms: this.source.now(), boot: this.boot, uptime_ms: Math.floor(this.source.running()) };
  }

  now(): number {
    return this.source.now();
  }

  running(): number {
    return this.source.running();
  }

  /** Compares the clocks; call it often, and when the page comes back to the front. */
  look(): void {
    const gap = this.source.now() - this.source.running() - this.apart;
    const unexplained = Math.abs(gap) > gapMs ? Math.round(gap) : 0;
    if (Math.abs(unexplained - this.unexplainedMs.value) > gapMs || (unexplained === 0 && this.unexplainedMs.value !== 0))
      this.unexplainedMs.set(unexplained);
  }

  /** What the office's clock says: the device's time less the office's. */
  compared(offMs: number): void {
    this.look();
    const agrees = Math.abs(offMs) <= agreesMs;
    if (agrees && this.agreed && this.unexplainedMs.value > 0) this.beginAnew();
    // After an unexplained gap one agreement is not enough: the calendar may have been wrong before.
    if (this.unexplainedMs.value === 0) this.agreed = agrees;
  }

  private beginAnew(): void {
    this.boot = randomHex(16);
    this.apart = this.source.now() - this.source.running();
    this.unexplainedMs.set(0);
  }
}

export const clock = new Clock({ now: () => Date.now(), running: () => performance.now() });
