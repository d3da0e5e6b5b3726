// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import type { Job } from "../../api/generated";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { Notice } from "../../components/notice";
import { ask } from "../../data/ask";
import { useWords } from "../../i18n/use_words";
import { typedUnit, withUnit } from "../../settings/units";

/** Valve shut before the motor; what is left in the tank tells what was used. */
export function FogOff({ job, complete, onDone }: { job: Job; complete: boolean; onDone: () => void }) {
  const { t, units } = useWords();
  const [left, setLeft] = useState("");
  const [added, setAdded] = useState("");
  const [sure, setSure] = useState(complete);
  const [fault, setFault] = useState<unknown>();
  const unit = typedUnit[units].volume;
  if (!complete && !sure)
    return <Button wide onPress={() => setSure(true)}>{t("fogOff.early")}</Button>;
  const body = { ...(left.trim() ? { left: withUnit(left, unit) } : {}), ...(added.trim() ? { added: withUnit(added, unit) } : {}) };
  return (
    <section>
      <h2>{t("fogOff.title")}</h2>
      {!complete && <Notice tone="hold" title={t("fogOff.incomplete")} />}
      <p>{t("fogOff.order")}</p>
      <Field label={t("fogOff.left")} hint={t("fogOff.leftHint")} value={left} onValue={setLeft} keys="decimal" unit={unit} />
      <Field label={t("fogOff.added")} value={added} onValue={setAdded} keys="decimal" unit={unit} />
      <FaultNote fault={fault} items={job.items} />
      <Button kind="main" wide onPress={() => ask("endFog", { path: { job: job.job }, body }).then(onDone, setFault)}>{t("fogOff.button")}</Button>
    </section>
  );
}
