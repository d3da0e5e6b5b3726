// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Field } from "../../components/field";
import { AuditPage } from "../../components/office/office_page";
import { Table } from "../../components/office/table";
import { Waiting } from "../../components/office/waiting";
import { StateMark } from "../../components/state_mark";
import { useWords } from "../../i18n/use_words";
import { day } from "../../office/days";
import { useItemNames } from "../../data/item_names";
import { useAll } from "../../office/use_all";
import type { Names } from "../../route/routes";

/** Every job that ever was; each leads to its line. */
export default function JobsView(_: { names: Names }) {
  const { t, language } = useWords();
  const nameOf = useItemNames();
  const [sought, setSought] = useState("");
  const fits = (text: string) => text.toLowerCase().includes(sought.trim().toLowerCase());
  return (
    <AuditPage title={t("life.jobs")}>
      <Field label={t("life.seek")} type="search" value={sought} onValue={setSought} hint={t("life.seekHint")} />
      <Waiting of={useAll("listJobs", { all: "true" })}>
        {(jobs) => (
          <Table
            caption={t("life.caption")}
            empty={t("life.none")}
            rows={jobs.filter((one) => fits(`${one.job} ${one.technician} ${one.product} ${nameOf(one.product)}`)).sort((a, b) => b.planned_ms - a.planned_ms)}
            keyOf={(one) => one.job}
            columns={[
              { head: t("papers.job"), cell: (one) => <a class="inline" href={`/audit/jobs/${encodeURIComponent(one.job)}`}>{one.job}</a> },
              { head: t("life.planned"), cell: (one) => day(one.planned_ms, language) },
              { head: t("life.state"), cell: (one) => <StateMark state={one.state} /> },
              { head: t("plan.product"), cell: (one) => nameOf(one.product) },
              { head: t("costs.technician"), cell: (one) => one.technician },
            ]}
          />
        )}
      </Waiting>
    </AuditPage>
  );
}
