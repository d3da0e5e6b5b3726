// SPDX-License-Identifier: Apache-2.0
// The clock that runs, kept in the database every second, so that a reload or a crash loses none of it. It leaves the
// database in the same step in which its entry is kept (src/data/outbox.ts).
import { useEffect, useRef, useState } from "preact/hooks";
import { ask } from "../../data/ask";
import { clock } from "../../data/clock";
import { openDatabase } from "../../data/database";
import { uuidV7 } from "../../data/identity";
import { advance, goOn, pause, resume, startTimer, stretchText, type FogTimer, type Tick } from "../../driveway/fog_timer";

export interface Fog {
  timer: FogTimer | null;
  /** Whether it is known what this phone timed. */
  loaded: boolean;
  start: (system: string, name: string) => void;
  pause: () => Promise<void>;
  goOn: () => void;
  /** The valve is shut: records what is timed so far, if anything is. Errors: those of `ask`; then it stays as it is. */
  record: () => Promise<void>;
}

const tickMs = 100;
const keepMs = 1_000;

/** Whether it is still this one's: what another tab has recorded does not come back. */
async function keep(job: string, timer: FogTimer, begins: boolean): Promise<boolean> {
  const change = (await openDatabase()).transaction("fog", "readwrite");
  const kept = await change.store.get(job);
  const mine = begins || (kept?.timer as FogTimer | undefined)?.entry === timer.entry;
  if (mine) await change.store.put({ job, timer });
  await change.done;
  return mine;
}

export function useFogTimer(job: string): Fog {
  const [timer, setTimer] = useState<FogTimer | null>(null);
  const [loaded, setLoaded] = useState(false);
  const current = useRef<FogTimer | null>(null);
  const hidden = useRef(document.visibilityState !== "visible");
  const kept = useRef(0);

  const show = (next: FogTimer | null) => {
    current.current = next;
    setTimer(next);
  };
  const set = async (next: FogTimer, begins = false): Promise<void> => {
    show(next);
    kept.current = clock.running();
    if (!(await keep(job, next, begins)) && current.current?.entry === next.entry) show(null);
  };
  const count = (next: FogTimer) => (clock.running() - kept.current < keepMs ? show(next) : void set(next));
  const tick = (): Tick => {
    const at = { wall: clock.now(), running: clock.running(), hidden: hidden.current };
    hidden.current = document.visibilityState !== "visible";
    return at;
  };

  useEffect(() => {
    const noteHidden = () => (hidden.current ||= document.visibilityState !== "visible");
    document.addEventListener("visibilitychange", noteHidden);
    const interval = setInterval(() => current.current?.open && count(advance(current.current, tick())), tickMs);
    void openDatabase().then((db) => db.get("fog", job)).then((run) => {
      if (run && !current.current) void set(resume(run.timer as FogTimer, tick()));
      setLoaded(true);
    });
    return () => {
      clearInterval(interval);
      document.removeEventListener("visibilitychange", noteHidden);
    };
  }, [job]);

  const shut = async () => {
    if (current.current) await set(pause(current.current, tick()));
  };
  const forget = () => {
    show(null);
    void openDatabase().then((db) => db.delete("fog", job));
  };

  return {
    timer,
    loaded,
    start: (system, name) => void set(startTimer(uuidV7(clock.now()), system, name, tick()), true),
    pause: shut,
    goOn: () => current.current && void set(goOn(current.current, tick())),
    record: async () => {
      await shut();
      // None where another tab has recorded it.
      const timed = current.current;
      if (!timed) return;
      const time = stretchText(timed);
      if (time) await ask("recordReturn", { path: { job }, body: { system: timed.system, return: timed.name, time }, id: timed.entry, endsFogOf: job });
      forget();
    },
  };
}
