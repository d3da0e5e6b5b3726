// SPDX-License-Identifier: Apache-2.0
import { Notice } from "../../components/notice";
import { Said } from "../../components/said";
import { useWords } from "../../i18n/use_words";
import type { LabelFault } from "../../office/fault_lines";

/** Each fault with its line, and the line itself. */
export function FaultList({ faults, text }: { faults: LabelFault[]; text: string }) {
  const { t, tn } = useWords();
  const lines = text.split("\n");
  return (
    <Notice tone="danger" title={tn("adopt.faults", faults.length)} live>
      <ol class="faults">
        {faults.map((fault, at) => (
          <li key={at}>
            <strong>{fault.line ? t("adopt.at", { line: fault.line, column: fault.column ?? 1 }) : <span lang="en">{fault.where}</span>}</strong>
            {fault.line && <pre class="code">{lines[fault.line - 1]}</pre>}
            <Said text={fault.words} />{fault.hint && ": "}<Said text={fault.hint} />
          </li>
        ))}
      </ol>
    </Notice>
  );
}
