// SPDX-License-Identifier: Apache-2.0
import { FoldOut } from "../../components/office/fold_out";
import { Said } from "../../components/said";
import { useWords } from "../../i18n/use_words";
import { moment } from "../../office/days";
import { elapsed } from "../../office/elapsed";
import type { Step } from "../../office/life";
import type { DepartureRow, EntryRow } from "../../office/shapes";
import { factsOf } from "../../office/entry_facts";
import { SeverityMark } from "./severity_mark";

/** Written an hour or more after it happened, as the audit's rule late-entry has it. */
const lateMs = 3_600_000;

function Facts({ entry, itemWords }: { entry: EntryRow; itemWords: ReadonlyMap<string, string> }) {
  const { t, tn, word, units, language } = useWords();
  const facts = factsOf(entry, { units, language, word, tn, itemWords });
  return (
    <>
      {facts && <span>{facts} </span>}
      <a class="inline" href={`/audit/entries/${entry.seq}`}>{t("entry.link", { n: entry.seq })}</a>
    </>
  );
}

function Several({ step, zone, itemWords }: { step: Step; zone: string; itemWords: ReadonlyMap<string, string> }) {
  const { tn, language } = useWords();
  return (
    <FoldOut title={tn("life.entries", step.entries.length)}>
      <ul>
        {step.entries.map((entry) => <li key={entry.seq}>{moment(entry.happened_ms, language, zone)}, {entry.actor}: <Facts entry={entry} itemWords={itemWords} /></li>)}
      </ul>
    </FoldOut>
  );
}

export function LifeStep({ step, zone, departures, itemWords }: { step: Step; zone: string; departures: DepartureRow[]; itemWords: ReadonlyMap<string, string> }) {
  const { t, word, language } = useWords();
  const first = step.entries[0];
  if (!first) return null;
  const late = step.entries.some((entry) => entry.received_ms - entry.happened_ms >= lateMs);
  return (
    <li class={departures.length > 0 ? "step departs" : "step"}>
      <p class="fine">
        {moment(first.happened_ms, language, zone)}
        {step.afterMs !== null && ` · ${t("life.after", { time: elapsed(step.afterMs) })}`}
      </p>
      <h3>{word("entry", step.kind)}</h3>
      <p>{[...new Set(step.entries.map((entry) => entry.actor))].join(", ")}, {[...new Set(step.entries.map((entry) => entry.device))].join(", ")}{late && ` · ${t("life.late")}`}</p>
      {step.entries.length === 1 ? <p><Facts entry={first} itemWords={itemWords} /></p> : <Several step={step} zone={zone} itemWords={itemWords} />}
      {departures.map((one, at) => (
        <p key={at} class="step-departure"><SeverityMark severity={one.severity} /> <Said text={one.what} /></p>
      ))}
    </li>
  );
}
