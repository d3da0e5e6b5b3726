// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { LinkButton } from "../../components/link_button";
import { Notice } from "../../components/notice";
import { startFog } from "../../data/start_fog";
import { countItems } from "../../driveway/gate_queue";
import { wakeSound } from "../../driveway/signals";
import { useWords } from "../../i18n/use_words";
import type { Stage } from "./job";

/** Before the fog: the gate, then the start, which the desk decides. */
export const StartStage: Stage = ({ job, again }) => {
  const { t, tn } = useWords();
  const [fault, setFault] = useState<unknown>();
  const { open, all } = countItems(job);
  const gate = `/jobs/${encodeURIComponent(job.job)}/gate`;
  const start = async () => {
    wakeSound();
    setFault(undefined);
    await startFog(job.job).then(again, setFault);
  };
  return (
    <section>
      <h2>{t("gate.title")}</h2>
      <progress max={all} value={all - open} aria-label={t("gate.progress", { done: all - open, all })} />
      <p>{t("gate.progress", { done: all - open, all })}</p>
      <FaultNote fault={fault} items={job.items} />
      {open > 0
        ? <LinkButton kind="main" icon="check" wide href={gate}>{tn("gate.meet", open)}</LinkButton>
        : (
          <>
            <Notice tone="done" title={t("gate.allMet")}><p>{t("start.how")}</p></Notice>
            <Button kind="main" wide onPress={start}>{t("start.button")}</Button>
          </>
        )}
    </section>
  );
};
