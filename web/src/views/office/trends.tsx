// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { OfficePage } from "../../components/office/office_page";
import { Select } from "../../components/office/select";
import { Waiting } from "../../components/office/waiting";
import { askOfficeFor } from "../../data/ask";
import { useWords } from "../../i18n/use_words";
import { useItemNames } from "../../data/item_names";
import type { AuditAnswer, StockLine } from "../../office/shapes";
import { askAll, useOffice } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { StockTrend } from "./stock_trend";
import { UseTrend } from "./use_trend";

const askItems = async () => ((await askAll("showStock")) as StockLine[]).filter((line) => line.containers > 0);
const askCharts = async () => ((await askOfficeFor("audit", { query: { limit: "1" } })) as unknown as AuditAnswer).charts.filter((chart) => chart.points.length > 1);

function Stock() {
  const { t } = useWords();
  const nameOf = useItemNames();
  const [item, setItem] = useState("");
  return (
    <Waiting of={useOffice(askItems)}>
      {(lines) => {
        const line = lines.find((one) => one.item === item) ?? lines.find((one) => one.usable_ul > 0) ?? lines[0];
        if (!line) return <p class="empty">{t("stock.none")}</p>;
        return (
          <>
            <Select label={t("stock.item")} value={line.item} onValue={setItem} options={lines.map((one) => ({ value: one.item, words: nameOf(one.item) }))} />
            <StockTrend line={line} />
          </>
        );
      }}
    </Waiting>
  );
}

function Use() {
  const { t, word } = useWords();
  const [at, setAt] = useState("0");
  return (
    <Waiting of={useOffice(askCharts)}>
      {(charts) => {
        const chart = charts[Number(at)] ?? charts[0];
        if (!chart) return <p class="empty">{t("use.tooFew")}</p>;
        return (
          <>
            <Select label={t("use.whose")} value={at} onValue={setAt} options={charts.map((one, n) => ({ value: String(n), words: one.name ? `${word("chart", one.of)} ${one.name}` : word("chart", one.of) }))} />
            <UseTrend chart={chart} />
          </>
        );
      }}
    </Waiting>
  );
}

/** Stock over time, and use against the plan. */
export default function TrendsView(_: { names: Names }) {
  const { t } = useWords();
  return (
    <OfficePage title={t("trends.title")}>
      <section>
        <h2>{t("trends.stock")}</h2>
        <Stock />
      </section>
      <section>
        <h2>{t("trends.use")}</h2>
        <Use />
      </section>
    </OfficePage>
  );
}
