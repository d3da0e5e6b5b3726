// SPDX-License-Identifier: Apache-2.0
import type { Job } from "../../api/generated";
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { Dialog } from "../../components/dialog";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { ask } from "../../data/ask";
import { useWords } from "../../i18n/use_words";

/** To give a job up. Fog that is out is held and released all the same. */
export function StopJob({ job }: { job: Job }) {
  const { t } = useWords();
  const [shown, setShown] = useState(false);
  const [why, setWhy] = useState("");
  const [fault, setFault] = useState<unknown>();
  const stop = () => ask("stopJob", { path: { job: job.job }, body: { why } }).then(() => setShown(false), setFault);
  return (
    <section>
      <Button icon="stop" wide onPress={() => setShown(true)}>{t("stop.open")}</Button>
      {shown && (
        <Dialog title={t("stop.title")} onClose={() => setShown(false)}>
          <p>{job.state === "fogging" ? t("stop.fogIsOut") : t("stop.nothingOut")}</p>
          <Field label={t("stop.why")} value={why} onValue={setWhy} required />
          <FaultNote fault={fault} />
          <Button kind="grave" wide disabled={!why.trim()} onPress={stop}>{t("stop.button")}</Button>
        </Dialog>
      )}
    </section>
  );
}
