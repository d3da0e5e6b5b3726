// SPDX-License-Identifier: Apache-2.0
import { Notice } from "../../components/notice";
import { Said } from "../../components/said";
import { useWords } from "../../i18n/use_words";
import type { AuditAnswer } from "../../office/shapes";

/** Whether the record was read again, and what was found. Nothing before that: silence would read as a yes. */
export function RecordState({ record }: { record: AuditAnswer["record"] }) {
  const { t, tn } = useWords();
  if (!record.verified) return <Notice title={t("record.notRead")} />;
  if (record.findings.length === 0) return <Notice tone="done" title={t("record.asWritten")} live><p>{t("record.asWrittenMeans")}</p></Notice>;
  return (
    <Notice tone="danger" title={tn("record.findings", record.findings.length)} live>
      <ul>{record.findings.map((one, at) => <li key={at}>{one.seq !== null && <><a href={`/audit/entries/${one.seq}`}>{one.seq}</a>: </>}<Said text={one.what} /></li>)}</ul>
    </Notice>
  );
}
