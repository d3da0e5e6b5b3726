// SPDX-License-Identifier: Apache-2.0
import { OfficePage } from "../../components/office/office_page";
import { Table } from "../../components/office/table";
import { Waiting } from "../../components/office/waiting";
import { useWords } from "../../i18n/use_words";
import { day } from "../../office/days";
import { money } from "../../office/money";
import { useItemNames } from "../../data/item_names";
import type { Draw } from "../../office/shapes";
import { useAll } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { volume } from "../../settings/units";
import { CostChart } from "./cost_chart";

/** What the product of each job cost. */
export default function CostsView(_: { names: Names }) {
  const { t, tn, units, language } = useWords();
  const nameOf = useItemNames();
  return (
    <OfficePage title={t("costs.title")}>
      <Waiting of={useAll("listJobCosts")}>
        {(jobs) => {
          const rows = [...jobs].sort((a, b) => b.planned_ms - a.planned_ms);
          const [sum, known] = [rows.reduce((all, one) => all + one.cents, 0), rows.every((one) => one.complete)];
          return (
            <>
              <p>{tn(known ? "costs.sum" : "costs.sumAtLeast", rows.length, { sum: money(sum, language) })}</p>
              <CostChart jobs={rows} />
              <Table
                caption={t("costs.caption")}
                empty={t("costs.none")}
                rows={rows}
                keyOf={(one) => one.job}
                columns={[
                  { head: t("papers.job"), cell: (one) => <a class="inline" href={`/audit/jobs/${encodeURIComponent(one.job)}`}>{one.job}</a> },
                  { head: t("trends.when"), cell: (one) => day(one.planned_ms, language) },
                  { head: t("plan.product"), cell: (one) => nameOf(one.product) },
                  { head: t("costs.technician"), cell: (one) => one.technician },
                  { head: t("costs.used"), figure: true, cell: (one) => (one.used_ul === undefined ? "–" : volume(one.used_ul, units, "up", language)) },
                  { head: t("costs.from"), cell: (one) => [...new Set((one.draws as unknown as Draw[]).map((draw) => `${draw.from} (${draw.lot})`))].join(", ") },
                  { head: t("costs.cost"), figure: true, cell: (one) => (one.complete ? money(one.cents, language) : t("costs.atLeast", { cost: money(one.cents, language) })) },
                ]}
              />
              <p class="fine">{t("costs.basis")}</p>
            </>
          );
        }}
      </Waiting>
    </OfficePage>
  );
}
