// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { Notice } from "../../components/notice";
import { AuditPage } from "../../components/office/office_page";
import { Waiting } from "../../components/office/waiting";
import { askOfficeFor } from "../../data/ask";
import { useWords } from "../../i18n/use_words";
import { useObservable } from "../../observable";
import { ownZone } from "../../office/days";
import { paperAddress } from "../../office/papers";
import { severities, type AuditAnswer, type AuditRule } from "../../office/shapes";
import { useOffice } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { DepartureCard } from "./departure_card";
import { FilterBar } from "./filter_bar";
import { filters, queryOf } from "./filters";
import { RecordState } from "./record_state";

const pageSize = 100;

function Found({ audit, rules }: { audit: AuditAnswer; rules: AuditRule[] }) {
  const { t, tn, word } = useWords();
  const byId = new Map(rules.map((rule) => [rule.id, rule]));
  return (
    <>
      <h2>{audit.departures.length === 0 ? t("departures.none") : tn("departures.count", audit.departures.length + audit.left_out)}</h2>
      <p>{severities.filter((one) => audit.by_severity[one] > 0).map((one) => `${word("severity", one)}: ${audit.by_severity[one]}`).join(" · ")}</p>
      <ol class="departures">
        {audit.departures.map((one, at) => <DepartureCard key={at} departure={one} rule={byId.get(one.rule)} />)}
      </ol>
    </>
  );
}

/** Where the record departs from the rules, gravest first. */
export default function DeparturesView(_: { names: Names }) {
  const { t, tn, language, units } = useWords();
  const now = queryOf(useObservable(filters));
  const [shown, setShown] = useState(pageSize);
  const [verify, setVerify] = useState(false);
  const rules = useOffice(async () => (await askOfficeFor("listAuditRules")).rules as unknown as AuditRule[]);
  const audit = useOffice(
    async () => (await askOfficeFor("audit", { query: { ...now, limit: String(shown), ...(verify ? { verify: "true" } : {}) } })) as unknown as AuditAnswer,
    [JSON.stringify(now), shown, verify]);
  return (
    <AuditPage title={t("nav.audit")}>
      <FilterBar />
      <Waiting of={audit}>
        {(answer) => (
          <>
            <RecordState record={answer.record} />
            <Found audit={answer} rules={rules.answer ?? []} />
            {answer.left_out > 0 && <Button wide onPress={() => setShown(shown + pageSize)}>{tn("departures.more", answer.left_out)}</Button>}
          </>
        )}
      </Waiting>
      <div class="actions">
        {!verify && <Button onPress={() => setVerify(true)}>{t("record.readAgain")}</Button>}
        <a class="button plain" target="_blank" rel="noopener" href={paperAddress("printAudit", { as: "pdf", language, size: "letter", units, zone: ownZone() }, {}, now as Record<string, string>)}>{t("departures.paper")}</a>
      </div>
      {verify && !audit.answer?.record.verified && !audit.fault && <Notice title={t("record.reading")} live />}
    </AuditPage>
  );
}
