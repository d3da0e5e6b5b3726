// SPDX-License-Identifier: Apache-2.0
// How long the valve of one return has been open. Fog that comes out while the phone sleeps or the page is gone is fog all
// the same: then the calendar counts. While the page was looked at the running clock counts, so that a clock that is
// turned meanwhile bends nothing.

export interface Tick {
  wall: number;
  running: number;
  /** The page was out of sight at some time since the last tick. */
  hidden: boolean;
}

export interface FogTimer {
  /** Id of the entry that will record this stretch, so that it is recorded once whatever happens in between. */
  entry: string;
  system: string;
  name: string;
  /** Of the stretch that is timed now; what was recorded before is not in it. */
  elapsed_ms: number;
  open: boolean;
  last_wall: number;
  last_running: number;
  /** Time that was counted by the calendar, since nobody saw it pass. */
  unseen_ms: number;
}

/** More than timers explain. */
const gapMs = 2_000;

export const startTimer = (entry: string, system: string, name: string, tick: Tick): FogTimer =>
  ({ entry, system, name, elapsed_ms: 0, open: true, last_wall: tick.wall, last_running: tick.running, unseen_ms: 0 });

export function advance(timer: FogTimer, tick: Tick): FogTimer {
  const byRunning = Math.max(0, tick.running - timer.last_running);
  const byWall = Math.max(0, tick.wall - timer.last_wall);
  const unseen = tick.hidden && byWall - byRunning > gapMs ? byWall - byRunning : 0;
  const passed = timer.open ? byRunning + unseen : 0;
  return {
    ...timer,
    elapsed_ms: timer.elapsed_ms + passed,
    unseen_ms: timer.unseen_ms + (timer.open ? unseen : 0),
    last_wall: tick.wall,
    last_running: tick.running,
  };
}

/** After a reload: the running clock is another one, the calendar alone bridges it. All of it counts: an open valve fogs. */
export function resume(kept: FogTimer, tick: Tick): FogTimer {
  const unseen = kept.open ? Math.max(0, tick.wall - kept.last_wall) : 0;
  return {
    ...kept,
    elapsed_ms: kept.elapsed_ms + unseen,
    unseen_ms: kept.unseen_ms + unseen,
    last_wall: tick.wall,
    last_running: tick.running,
  };
}

export const pause = (timer: FogTimer, tick: Tick): FogTimer => ({ ...advance(timer, tick), open: false });
export const goOn = (timer: FogTimer, tick: Tick): FogTimer => ({ ...advance(timer, tick), open: true });

export type Mark = "low" | "target" | "high";

/** The marks that lie between two times, in order. */
export function marksPassed(beforeMs: number, nowMs: number, planned: { seconds: number; band_s: [number, number] }): Mark[] {
  const marks: [Mark, number][] = [["low", planned.band_s[0]], ["target", planned.seconds], ["high", planned.band_s[1]]];
  return marks.filter(([, at]) => beforeMs < at * 1000 && nowMs >= at * 1000).map(([mark]) => mark);
}

/** "42.3 s", rounded down: what is recorded as fogged was fogged. */
export const timeText = (ms: number): string => `${(Math.floor(ms / 100) / 10).toFixed(1)} s`;

/**
 * The desk takes no longer one (src/desk/job_document.hpp, which a test holds this to). A valve that nobody shut for longer is told as
 * that: better than not at all.
 */
export const longestStretchMs = 6 * 3_600_000;

/** A stretch as the desk takes it; null where it is none. */
export const stretchText = (timer: FogTimer): string | null =>
  (timer.elapsed_ms < 100 ? null : timeText(Math.min(timer.elapsed_ms, longestStretchMs)));
