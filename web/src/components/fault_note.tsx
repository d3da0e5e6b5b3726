// SPDX-License-Identifier: Apache-2.0
import { NoConnection, Refused } from "../api/http";
import { useWords } from "../i18n/use_words";
import { Notice } from "./notice";

/** What went wrong, where, and what to do next, in the words of whoever refused it. */
export function FaultNote({ fault }: { fault: unknown }) {
  const { t } = useWords();
  if (!fault) return null;
  if (fault instanceof NoConnection)
    return (
      <Notice tone="hold" title={t("fault.noSignal")} live>
        <p>{t("fault.noSignalHint")}</p>
      </Notice>
    );
  const problem = fault instanceof Refused ? fault.problem : { detail: fault instanceof Error ? fault.message : String(fault) };
  const faults = (problem.faults ?? []) as { detail?: string; message?: string; where?: string; hint?: string }[];
  return (
    <Notice tone="danger" title={t("fault.refused")} live>
      <div lang="en">
        {faults.length > 1
          ? <ul>{faults.map((one, at) => <li key={at}>{[one.where, one.detail ?? one.message, one.hint].filter(Boolean).join(": ")}</li>)}</ul>
          : <p>{problem.where ? `${problem.where}: ` : ""}{problem.detail}</p>}
        {problem.hint && <p>{problem.hint}</p>}
      </div>
    </Notice>
  );
}
