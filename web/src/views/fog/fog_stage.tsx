// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { LinkButton } from "../../components/link_button";
import { Notice } from "../../components/notice";
import { countItems } from "../../driveway/gate_queue";
import { foggedMs, planOf } from "../../driveway/shapes";
import { useWords } from "../../i18n/use_words";
import type { Stage } from "../job/job";
import { FogOff } from "./fog_off";
import { ReturnList, type Chosen } from "./return_list";
import { ReturnTimer } from "./return_timer";

/** The returns one after the other, each with its clock; then fog off. */
export const FogStage: Stage = ({ job, again, fog }) => {
  const { t, tn } = useWords();
  const [picked, setPicked] = useState<Chosen>();
  const all = planOf(job).systems.flatMap((system) => system.returns.map((planned) => ({ system: system.name, planned })));
  const enough = ({ system, planned }: Chosen) => foggedMs(job, system, planned.name) >= planned.band_s[0] * 1000;
  // What is being timed has the word; then what somebody picked; then the first that lacks fog.
  const timed = fog.timer && all.find(({ system, planned }) => system === fog.timer?.system && planned.name === fog.timer.name);
  const chosen = timed ?? picked ?? all.find((one) => !enough(one));
  const { open } = countItems(job);
  return (
    <section>
      {!fog.timer && chosen && <p>{t("fog.how")}</p>}
      {chosen
        ? <ReturnTimer key={`${chosen.system}/${chosen.planned.name}`} job={job} chosen={chosen} fog={fog} onRecorded={() => (setPicked(undefined), again())} />
        : <Notice tone="done" title={t("fog.allDone")} live />}
      <ReturnList job={job} all={all} chosen={chosen} timer={fog.timer} onChoose={setPicked} />
      {!fog.timer && !chosen && open > 0 && (
        <LinkButton icon="check" wide href={`/jobs/${encodeURIComponent(job.job)}/gate`}>{tn("fog.kept", open)}</LinkButton>
      )}
      {!fog.timer && <FogOff job={job} complete={!chosen} onDone={again} />}
    </section>
  );
};
