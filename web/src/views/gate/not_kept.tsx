// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { Dialog } from "../../components/dialog";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { ask } from "../../data/ask";
import { useWords } from "../../i18n/use_words";

/** Something that had to hold while fogging did not: it is recorded as it was. */
export function NotKept({ job, item, onDone }: { job: string; item: string; onDone: () => void }) {
  const { t } = useWords();
  const [shown, setShown] = useState(false);
  const [why, setWhy] = useState("");
  const [fault, setFault] = useState<unknown>();
  const tell = () => ask("lapseItems", { path: { job }, body: { why, items: [item] } }).then(() => (setShown(false), onDone()), setFault);
  return (
    <>
      <Button onPress={() => setShown(true)}>{t("gate.notKept")}</Button>
      {shown && (
        <Dialog title={t("gate.notKept")} onClose={() => setShown(false)}>
          <Field label={t("gate.whatHappened")} value={why} onValue={setWhy} />
          <FaultNote fault={fault} />
          <Button kind="main" wide disabled={!why.trim()} onPress={tell}>{t("gate.record")}</Button>
        </Dialog>
      )}
    </>
  );
}
