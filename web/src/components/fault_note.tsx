// SPDX-License-Identifier: Apache-2.0
import { NoConnection, Refused } from "../api/http";
import type { NamedItem } from "../driveway/item_words";
import { useWords } from "../i18n/use_words";
import { Notice } from "./notice";
import { Said } from "./said";

/** The member of what was sent; the option of a command is for a command line. */
const place = (where: string | undefined) => (where && !where.startsWith("--") ? `${where}: ` : "");

/** What went wrong, where, and what to do next, as whoever refused it said. */
export function FaultNote({ fault, items }: { fault: unknown; items?: NamedItem[] }) {
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
      {faults.length > 1
        ? <ul>{faults.map((one, at) => <li key={at}>{place(one.where)}<Said text={one.detail ?? one.message} items={items} />{one.hint && ": "}<Said text={one.hint} /></li>)}</ul>
        : <p>{place(problem.where)}<Said text={problem.detail} items={items} /></p>}
      {problem.hint && <p><Said text={problem.hint} /></p>}
    </Notice>
  );
}
