// SPDX-License-Identifier: Apache-2.0
import { Chart } from "../../components/office/chart";
import { FoldOut } from "../../components/office/fold_out";
import { Table } from "../../components/office/table";
import { Waiting } from "../../components/office/waiting";
import { clock } from "../../data/clock";
import { useWords } from "../../i18n/use_words";
import { moment } from "../../office/days";
import { useItemNames } from "../../data/item_names";
import type { StockLine } from "../../office/shapes";
import { stockHistory, type Level } from "../../office/stock_history";
import { useOffice } from "../../office/use_all";
import { chartUnit, volume } from "../../settings/units";

/** The item's level after each movement, and where to order again. */
export function StockTrend({ line }: { line: StockLine }) {
  const { t } = useWords();
  return (
    <Waiting of={useOffice(() => stockHistory(line.item), [line.item])}>
      {(history) => (history.length === 0 ? <p class="empty">{t("stock.none")}</p> : <Drawn line={line} history={history} />)}
    </Waiting>
  );
}

function Drawn({ line, history }: { line: StockLine; history: Level[] }) {
  const { t, units, language } = useWords();
  const nameOf = useItemNames();
  // The last level lasts until today.
  const levels = [...history, { ms: clock.now(), ul: history[history.length - 1]?.ul ?? 0 }];
  const [unit, ulOfUnit] = chartUnit(Math.max(...history.map((one) => one.ul), line.reorder_point_ul ?? 0), units);
  const point = line.reorder_point_ul;
  const told = { item: nameOf(line.item), now: volume(line.on_hand_ul, units, "down", language), point: point === null ? t("shelf.coverUnknown") : volume(point, units, "up", language) };
  return (
    <>
      <p>{t("trends.stockNow", told)}</p>
      <Chart
        label={t("trends.stockNow", told)}
        fromZero
        timesMs={levels.map((one) => one.ms)}
        lines={[
          { label: t("trends.onHand", { unit }), look: "main", stepped: true, values: levels.map((one) => one.ul / ulOfUnit) },
          ...(point === null ? [] : [{ label: t("order.point"), look: "across" as const, values: levels.map(() => point / ulOfUnit) }]),
        ]}
      />
      <FoldOut title={t("trends.asTable")}>
        <Table
          caption={t("trends.stock")}
          empty={t("stock.none")}
          rows={[...history].reverse()}
          keyOf={(one) => String(one.ms)}
          columns={[
            { head: t("trends.when"), cell: (one) => moment(one.ms, language) },
            { head: t("trends.level"), figure: true, cell: (one) => volume(one.ul, units, "down", language) },
          ]}
        />
      </FoldOut>
    </>
  );
}
