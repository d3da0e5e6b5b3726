// SPDX-License-Identifier: Apache-2.0
import type { Job } from "../../api/generated";
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { Dialog } from "../../components/dialog";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { ask } from "../../data/ask";
import { timeText } from "../../driveway/fog_timer";
import { shownName } from "../../driveway/return_names";
import { useWords } from "../../i18n/use_words";
import type { Fog } from "../fog/use_fog_timer";

/** To give a job up. Fog that is out is held and released all the same: what is being timed is recorded first. */
export function StopJob({ job, fog }: { job: Job; fog: Fog }) {
  const { t } = useWords();
  const [shown, setShown] = useState(false);
  const [why, setWhy] = useState("");
  const [fault, setFault] = useState<unknown>();
  const stop = async () => {
    setFault(undefined);
    await fog.record().then(() => ask("stopJob", { path: { job: job.job }, body: { why } })).then(() => setShown(false), setFault);
  };
  return (
    <section>
      <Button icon="stop" wide onPress={() => setShown(true)}>{t("stop.open")}</Button>
      {shown && (
        <Dialog title={t("stop.title")} onClose={() => setShown(false)}>
          <p>{job.state === "fogging" ? t("stop.fogIsOut") : t("stop.nothingOut")}</p>
          {fog.timer && <p>{t("stop.timed", { name: shownName(fog.timer.name), time: timeText(fog.timer.elapsed_ms) })}</p>}
          {fog.timer?.open && <Button wide onPress={fog.pause}>{t("fog.pause")}</Button>}
          <Field label={t("stop.why")} value={why} onValue={setWhy} required />
          <FaultNote fault={fault} items={job.items} />
          <Button kind="grave" wide disabled={!why.trim()} onPress={stop}>{t("stop.button")}</Button>
        </Dialog>
      )}
    </section>
  );
}
