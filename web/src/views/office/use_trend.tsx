// SPDX-License-Identifier: Apache-2.0
import { Chart } from "../../components/office/chart";
import { FoldOut } from "../../components/office/fold_out";
import { Table } from "../../components/office/table";
import { Badge } from "../../components/office/badge";
import { useWords } from "../../i18n/use_words";
import { moment } from "../../office/days";
import type { UseChart } from "../../office/shapes";
import { unbroken } from "../../settings/formats";
import { number } from "../../settings/units";

/** Use off the plan, job by job, with the control limits; points outside stand out by size and in the table by a word. */
export function UseTrend({ chart }: { chart: UseChart }) {
  const { t, tn, language } = useWords();
  const percent = (value: number) => unbroken(`${number(value, 1, language)} %`);
  const outside = new Set(chart.outside);
  const told = { centre: percent(chart.centre), lower: percent(chart.lower), upper: percent(chart.upper) };
  const across = (label: string, value: number) => ({ label, look: "across" as const, values: chart.points.map(() => value) });
  const summary = `${t("use.limits", told)} ${chart.flagged ? tn("use.outside", outside.size) : t("use.notFlagged")}`;
  return (
    <>
      <p>{summary}</p>
      <Chart
        label={summary}
        timesMs={chart.points.map((point) => point.at_ms)}
        lines={[
          { label: t("use.off"), look: "main", values: chart.points.map((point) => point.off_percent) },
          across(t("use.upper"), chart.upper),
          across(t("use.centre"), chart.centre),
          across(t("use.lower"), chart.lower),
          { label: t("use.beyond"), look: "mark", values: chart.points.map((point, at) => (outside.has(at) ? point.off_percent : null)) },
        ]}
      />
      <p class="fine">{t("use.basis")}</p>
      <FoldOut title={t("trends.asTable")}>
        <Table
          caption={t("trends.use")}
          empty={t("use.tooFew")}
          rows={chart.points.map((point, at) => ({ ...point, at }))}
          keyOf={(point) => String(point.seq)}
          columns={[
            { head: t("papers.job"), cell: (point) => <a class="inline" href={`/audit/jobs/${encodeURIComponent(point.of)}`}>{point.of}</a> },
            { head: t("trends.when"), cell: (point) => moment(point.at_ms, language) },
            { head: t("use.off"), figure: true, cell: (point) => percent(point.off_percent) },
            { head: t("use.beyond"), cell: (point) => (outside.has(point.at) ? <Badge tone="hold">{t("common.yes")}</Badge> : t("common.no")) },
          ]}
        />
      </FoldOut>
    </>
  );
}
