// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { AuditPage } from "../../components/office/office_page";
import { SaveText } from "../../components/office/save_text";
import { askOfficeFor } from "../../data/ask";
import { useWords } from "../../i18n/use_words";
import { readCheckpoint } from "../../office/note_text";
import type { AuditAnswer } from "../../office/shapes";
import type { Names } from "../../route/routes";
import { CompareHeld } from "./compare_held";
import { RecordState } from "./record_state";

function ReadAgain() {
  const { t } = useWords();
  const [record, setRecord] = useState<AuditAnswer["record"]>();
  const [fault, setFault] = useState<unknown>();
  const read = () => askOfficeFor("audit", { query: { verify: "true", limit: "1" } }).then((answer) => (setFault(undefined), setRecord((answer as unknown as AuditAnswer).record)), setFault);
  return (
    <section>
      <h2>{t("record.read")}</h2>
      <p>{t("record.readHow")}</p>
      <FaultNote fault={fault} />
      {record && <RecordState record={record} />}
      <Button onPress={read}>{t("record.readAgain")}</Button>
    </section>
  );
}

/** The book as a whole: read again, signed, and what somebody else holds of it. */
export default function RecordView(_: { names: Names }) {
  const { t } = useWords();
  const [text, setText] = useState("");
  const [fault, setFault] = useState<unknown>();
  const note = readCheckpoint(text);
  const sign = () => askOfficeFor("signCheckpoint").then((answer) => (setFault(undefined), setText(answer.checkpoint)), setFault);
  return (
    <AuditPage title={t("record.title")}>
      <p>{t("record.means")}</p>
      <ReadAgain />
      <section>
        <h2>{t("record.checkpoint")}</h2>
        <p>{t("record.checkpointHow")}</p>
        <FaultNote fault={fault} />
        {!text && <Button icon="check" onPress={sign}>{t("record.sign")}</Button>}
        {note && (
          <>
            <dl class="facts">
              <dt>{t("record.origin")}</dt><dd>{note.origin}</dd>
              <dt>{t("record.entries")}</dt><dd>{note.size}</dd>
              <dt>{t("record.root")}</dt><dd class="code">{note.root}</dd>
              <dt>{t("record.signedBy")}</dt><dd>{note.signers.join(", ")}</dd>
            </dl>
            <SaveText text={text} name={`checkpoint-${note.size}.txt`} />
          </>
        )}
      </section>
      <section>
        <h2>{t("record.witnesses")}</h2>
        <p>{t("record.witnessesHow")}</p>
        <CompareHeld now={note} />
      </section>
    </AuditPage>
  );
}
