// SPDX-License-Identifier: Apache-2.0
import { Badge } from "../../components/office/badge";
import { OfficePage } from "../../components/office/office_page";
import { Table } from "../../components/office/table";
import { Waiting } from "../../components/office/waiting";
import type { FormField } from "../../components/office/write_form";
import { WriteOneOf } from "../../components/office/write_one_of";
import { hasRole } from "../../data/session";
import { useWords } from "../../i18n/use_words";
import { useItemNames } from "../../data/item_names";
import type { StockLine } from "../../office/shapes";
import { askAll, useOffice } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { volume } from "../../settings/units";
import { Cover } from "./cover";

const askOrder = async () => {
  const [stock, products] = await Promise.all([askAll("showStock"), askAll("listProducts")]);
  const lines = stock as StockLine[];
  return { lines: [...lines.filter((line) => line.order_ul > 0), ...lines.filter((line) => line.order_ul <= 0 && line.containers > 0)], products };
};

const ruleFields: FormField[] = [
  { name: "unit", label: "order.unit", hint: "order.unitHint", kind: "volume", needed: true },
  { name: "lead_time_days", label: "order.lead", hint: "order.leadHint", kind: "decimal" },
  { name: "deviation_days", label: "order.deviation", hint: "order.deviationHint", kind: "decimal" },
  { name: "service_z", label: "order.z", hint: "order.zHint", kind: "decimal" },
];

function OrderTable({ lines }: { lines: StockLine[] }) {
  const { t, units, language } = useWords();
  const nameOf = useItemNames();
  const unknown = t("shelf.coverUnknown");
  return (
    <Table
      caption={t("order.caption")}
      empty={t("stock.none")}
      rows={lines}
      keyOf={(line) => line.item}
      columns={[
        { head: t("stock.item"), cell: (line) => nameOf(line.item) },
        { head: t("order.state"), cell: (line) => <OrderState line={line} /> },
        { head: t("order.order"), figure: true, cell: (line) => (line.order_ul > 0 ? <strong>{volume(line.order_ul, units, "up", language)}</strong> : "–") },
        { head: t("order.usable"), figure: true, cell: (line) => volume(line.usable_ul, units, "down", language) },
        { head: t("order.point"), figure: true, cell: (line) => (line.reorder_point_ul === null ? unknown : volume(line.reorder_point_ul, units, "up", language)) },
        { head: t("shelf.cover"), figure: true, cell: (line) => <Cover days={line.days_of_cover} /> },
        { head: t("order.jobs"), figure: true, cell: (line) => (line.jobs_left === null ? unknown : line.jobs_left) },
      ]}
    />
  );
}

function OrderState({ line }: { line: StockLine }) {
  const { t } = useWords();
  if (line.order_ul > 0) return <Badge tone="hold">{t("order.now")}</Badge>;
  return line.reorder_point_ul === null ? <Badge tone="plain">{t("order.unknown")}</Badge> : <Badge tone="done">{t("order.enough")}</Badge>;
}

/** What to order, and when. */
export default function OrderView(_: { names: Names }) {
  const { t } = useWords();
  return (
    <OfficePage title={t("order.title")}>
      <Waiting of={useOffice(askOrder)}>
        {({ lines, products }) => (
          <>
            <OrderTable lines={lines} />
            <p class="fine">{t("order.basis")}</p>
            {hasRole("owner") && (
              <WriteOneOf title={t("order.rule")} label={t("plan.product")} options={products.map((one) => ({ value: one.product, words: one.name }))} id="setReorder" names="product" fields={ruleFields} button="stock.write" />
            )}
          </>
        )}
      </Waiting>
    </OfficePage>
  );
}
