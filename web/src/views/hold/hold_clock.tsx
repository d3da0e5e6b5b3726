// SPDX-License-Identifier: Apache-2.0
import { useEffect, useMemo } from "preact/hooks";
import type { Job } from "../../api/generated";
import { Said } from "../../components/said";
import { clock } from "../../data/clock";
import { nobodyIn } from "../../driveway/gate_queue";
import { holdLeft } from "../../driveway/hold_clock";
import { useNow } from "../../driveway/use_now";
import { useWakeLock } from "../../driveway/wake_lock";
import { useWords } from "../../i18n/use_words";
import { countdown, dayAndTime, minutes, timeOfDay } from "../../settings/units";

const minuteMs = 60_000;
const halfDayMs = 12 * 60 * minuteMs;

/** What is left, as large as the screen allows, and the time of day at which it ends at the job's place. */
export function HoldClock({ job, again }: { job: Job; again: () => void }) {
  const { t, language } = useWords();
  const now = useNow(250);
  useWakeLock(true);
  const answer = useMemo(() => (job.hold ? { hold: job.hold, wall: clock.now(), running: clock.running() } : null), [job]);
  const left = answer && holdLeft(answer, { wall: now, running: clock.running() });
  const over = job.hold?.may_release ?? false;
  // What opens with the second part (airing out, the look for haze) is the desk's to open.
  const secondPart = job.hold !== undefined && nobodyIn(job) && left?.part === "total";
  const ran = !over && left !== null && (left.left_ms === 0 || secondPart);
  // The desk has the last word: at nought it is asked, and asked again until it says so.
  useEffect(() => {
    if (!ran) return;
    again();
    const timer = setInterval(again, 5_000);
    return () => clearInterval(timer);
  }, [ran]);
  if (!job.hold || !left) return null;
  // To the next whole minute, and with the day where the time of day alone could be taken for an earlier one.
  const ends = (ms: number) => (ms - now < halfDayMs ? timeOfDay : dayAndTime)(Math.ceil(ms / minuteMs) * minuteMs, job.zone ?? "UTC", language);
  const why = (job.hold as { why?: string }).why;
  return (
    <div class={`hold-clock ${over ? "over" : "runs"}`}>
      <p class="words">{over ? t("hold.over") : left.part === "floor" ? t("hold.nobodyIn") : t("hold.waiting")}</p>
      {!over && (
        <>
          <p class="left figures" role="timer" aria-label={t("hold.left")}>{countdown(left.left_ms)}</p>
          <p class="until">{t("hold.until", { time: ends(left.ends_ms) })}</p>
          {left.part === "floor" && job.hold.floor_ms < job.hold.total_ms && (
            <p>{t("hold.parts", { floor: minutes(Math.ceil(job.hold.floor_ms / minuteMs)), time: ends(left.ends_ms + job.hold.total_ms - job.hold.floor_ms) })}</p>
          )}
          {why && left.part !== "floor" && <p class="fine"><Said text={why} /></p>}
        </>
      )}
    </div>
  );
}
