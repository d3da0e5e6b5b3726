// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import type { Job } from "../../api/generated";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { ask } from "../../data/ask";
import { useWords } from "../../i18n/use_words";

/** Somebody went in, or the respirator came off: what stood on that is open again. */
export function LapseItems({ job, onDone }: { job: Job; onDone: () => void }) {
  const { t } = useWords();
  const [fault, setFault] = useState<unknown>();
  const lapse = (event: "entered" | "doffed", why: string) =>
    ask("lapseItems", { path: { job: job.job }, body: { event, why } }).then(onDone, setFault);
  return (
    <section>
      <h2>{t("lapse.title")}</h2>
      <FaultNote fault={fault} />
      <div class="actions">
        <Button onPress={() => lapse("entered", "somebody went in")}>{t("lapse.entered")}</Button>
        <Button onPress={() => lapse("doffed", "the respirator came off")}>{t("lapse.doffed")}</Button>
      </div>
    </section>
  );
}
