// SPDX-License-Identifier: Apache-2.0
import { LinkButton } from "../../components/link_button";
import { Notice } from "../../components/notice";
import { countItems, nobodyIn } from "../../driveway/gate_queue";
import { useWords } from "../../i18n/use_words";
import { LeftRunning } from "../fog/left_running";
import type { Stage } from "../job/job";
import { HoldClock } from "./hold_clock";
import { Readings } from "./readings";
import { Release } from "./release";

/** Nobody inside until the desk says that the hold is over and a named person releases the building. */
export const HoldStage: Stage = ({ job, again, fog }) => {
  const { t, tn } = useWords();
  const { open } = countItems(job);
  return (
    <section>
      <LeftRunning fog={fog} onRecorded={again} />
      {/* The fog that this phone timed is not in the book yet: once it is, the hold runs from then. */}
      {!(fog.timer && job.hold?.may_release) && <HoldClock job={job} again={again} />}
      {open > 0 && <div class="actions thumb"><LinkButton icon="check" href={`/jobs/${encodeURIComponent(job.job)}/gate`}>{tn("gate.meet", open)}</LinkButton></div>}
      {nobodyIn(job) && <p>{t("hold.itemsLater")}</p>}
      {job.hold?.readings_needed && <Notice tone="hold" title={t("hold.readingsNeeded")}><p>{t("hold.readingsHow")}</p></Notice>}
      <Readings job={job} onDone={again} />
      {fog.loaded && !fog.timer && <Release job={job} onDone={again} />}
    </section>
  );
};
