// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { LinkButton } from "../../components/link_button";
import { Notice } from "../../components/notice";
import { ask } from "../../data/ask";
import { countItems } from "../../driveway/gate_queue";
import { useWords } from "../../i18n/use_words";
import type { Stage } from "./job";

/** After the release: everything back in its place, then the job is closed. */
export const CloseStage: Stage = ({ job, again }) => {
  const { t, tn } = useWords();
  const [fault, setFault] = useState<unknown>();
  const { open } = countItems(job);
  return (
    <section>
      <h2>{t("close.title")}</h2>
      <FaultNote fault={fault} items={job.items} />
      {open > 0
        ? <LinkButton kind="main" icon="check" wide href={`/jobs/${encodeURIComponent(job.job)}/gate`}>{tn("gate.meet", open)}</LinkButton>
        : (
          <>
            <Notice tone="done" title={t("close.allBack")} />
            <Button kind="main" wide onPress={() => ask("closeJob", { path: { job: job.job } }).then(again, setFault)}>{t("close.button")}</Button>
          </>
        )}
    </section>
  );
};
