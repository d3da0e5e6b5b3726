// SPDX-License-Identifier: Apache-2.0
// The clock that runs, kept in the database every second, so that a reload or a crash loses none of it.
import { useEffect, useRef, useState } from "preact/hooks";
import { clock } from "../../data/clock";
import { openDatabase } from "../../data/database";
import { advance, goOn, pause, resume, startTimer, type FogTimer, type Tick } from "../../driveway/fog_timer";

export interface Fog {
  timer: FogTimer | null;
  start: (system: string, name: string) => void;
  /** Gives what is timed so far. */
  pause: () => FogTimer | null;
  goOn: () => void;
  /** It is recorded: forget it. */
  forget: () => void;
}

const tickMs = 100;
const keepMs = 1_000;

async function keep(job: string, timer: FogTimer | null): Promise<void> {
  const db = await openDatabase();
  if (timer) await db.put("fog", { job, timer });
  else await db.delete("fog", job);
}

export function useFogTimer(job: string): Fog {
  const [timer, setTimer] = useState<FogTimer | null>(null);
  const current = useRef<FogTimer | null>(null);
  const hidden = useRef(document.visibilityState !== "visible");
  const kept = useRef(0);

  const set = (next: FogTimer | null, must: boolean) => {
    current.current = next;
    setTimer(next);
    if (!must && clock.running() - kept.current < keepMs) return;
    kept.current = clock.running();
    void keep(job, next);
  };
  const tick = (): Tick => {
    const at = { wall: clock.now(), running: clock.running(), hidden: hidden.current };
    hidden.current = document.visibilityState !== "visible";
    return at;
  };

  useEffect(() => {
    const noteHidden = () => (hidden.current ||= document.visibilityState !== "visible");
    document.addEventListener("visibilitychange", noteHidden);
    const interval = setInterval(() => current.current?.open && set(advance(current.current, tick()), false), tickMs);
    void openDatabase().then((db) => db.get("fog", job)).then((run) => {
      if (run && !current.current) set(resume(run.timer as FogTimer, tick()), true);
    });
    return () => {
      clearInterval(interval);
      document.removeEventListener("visibilitychange", noteHidden);
    };
  }, [job]);

  return {
    timer,
    start: (system, name) => set(startTimer(system, name, tick()), true),
    pause: () => {
      if (current.current) set(pause(current.current, tick()), true);
      return current.current;
    },
    goOn: () => current.current && set(goOn(current.current, tick()), true),
    forget: () => set(null, true),
  };
}
