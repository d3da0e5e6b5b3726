// SPDX-License-Identifier: Apache-2.0
import { Basis } from "../../components/basis";
import { Said } from "../../components/said";
import { useWords } from "../../i18n/use_words";
import { moment } from "../../office/days";
import { useItemNames } from "../../data/item_names";
import { ruleWords } from "../../office/rule_words";
import type { AuditRule, DepartureRow } from "../../office/shapes";
import { EntryLinks } from "./entry_links";
import { SeverityMark } from "./severity_mark";

/** One departure: what happened, what shows it, which rule, what to do. */
export function DepartureCard({ departure, rule }: { departure: DepartureRow; rule: AuditRule | undefined }) {
  const { t, language } = useWords();
  const nameOf = useItemNames();
  const said = ruleWords({ id: departure.rule, words: rule?.words ?? departure.rule, what_to_do: departure.what_to_do }, language);
  const about = [departure.person, departure.product && nameOf(departure.product), departure.place].filter(Boolean).join(" · ");
  return (
    <li class={`departure ${departure.severity}`}>
      <div class="state-line">
        <SeverityMark severity={departure.severity} />
        <span class="fine">{moment(departure.at_ms, language)}</span>
      </div>
      <h3><Said text={departure.what} /></h3>
      <dl class="facts">
        <dt>{t("departures.rule")}</dt><dd lang={said.language}>{said.words}</dd>
        <dt>{t("departures.basis")}</dt><dd><Basis kind={departure.kind} citation={departure.citation} /></dd>
        <dt>{t("departures.do")}</dt><dd lang={said.language}>{said.whatToDo}</dd>
        {(about || departure.job) && <><dt>{t("departures.about")}</dt><dd>{departure.job && <a class="inline" href={`/audit/jobs/${encodeURIComponent(departure.job)}`}>{departure.job}</a>} {about}</dd></>}
        <dt>{t("departures.entries")}</dt><dd><EntryLinks seqs={departure.entries} /></dd>
      </dl>
    </li>
  );
}
