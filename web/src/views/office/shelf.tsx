// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Select } from "../../components/office/select";
import { Badge } from "../../components/office/badge";
import { OfficePage } from "../../components/office/office_page";
import { Table } from "../../components/office/table";
import { Waiting } from "../../components/office/waiting";
import { WriteOneOf } from "../../components/office/write_one_of";
import { clock } from "../../data/clock";
import { useWords } from "../../i18n/use_words";
import { day, daysTo, lastDay } from "../../office/days";
import { useItemNames } from "../../data/item_names";
import type { StockLine, VesselRow } from "../../office/shapes";
import { shelfRows, type ShelfRow } from "../../office/shelf";
import { askAll, useOffice } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { volume } from "../../settings/units";
import { Cover } from "./cover";

interface Shelf {
  vessels: VesselRow[];
  stock: StockLine[];
}

const askShelf = async (): Promise<Shelf> => {
  const [vessels, stock] = await Promise.all([askAll("listVessels"), askAll("showStock")]);
  return { vessels: vessels as VesselRow[], stock: stock as StockLine[] };
};

function LastDay({ row }: { row: ShelfRow }) {
  const { t, tn, language } = useWords();
  const end = lastDay(row.usableUntilMs);
  const left = daysTo(end, clock.now());
  if (row.usableUntilMs <= clock.now()) return <>{day(end, language)} <Badge tone="danger">{t("stock.pastDate")}</Badge></>;
  const words = left > 0 ? tn("days.left", left) : t("days.left.none");
  return <>{day(end, language)} {left <= 30 ? <Badge tone="hold">{words}</Badge> : <small>{words}</small>}</>;
}

function ShelfTable({ rows }: { rows: ShelfRow[] }) {
  const { t, units, language } = useWords();
  const nameOf = useItemNames();
  return (
    <Table
      caption={t("shelf.caption")}
      empty={t("stock.none")}
      rows={rows}
      keyOf={(row) => JSON.stringify([row.place, row.item, row.lot])}
      columns={[
        { head: t("stock.item"), cell: (row) => nameOf(row.item) },
        { head: t("stock.place"), cell: (row) => row.place },
        { head: t("shelf.lot"), cell: (row) => row.lot },
        { head: t("shelf.vessels"), cell: (row) => row.ids.map((id) => <a key={id} class="inline" href={`/stock/${encodeURIComponent(id)}`}>{id}</a>) },
        { head: t("stock.left"), figure: true, cell: (row) => volume(row.leftUl, units, "down", language) },
        { head: t("shelf.lastDay"), cell: (row) => <LastDay row={row} /> },
        { head: t("shelf.cover"), figure: true, cell: (row) => <Cover days={row.coverDays} /> },
      ]}
    />
  );
}

function Count({ vessels }: { vessels: VesselRow[] }) {
  const { t } = useWords();
  const nameOf = useItemNames();
  return (
    <WriteOneOf
      title={t("shelf.count")}
      label={t("shelf.which")}
      options={vessels.map((one) => ({ value: one.id, words: `${one.id}: ${nameOf(one.item)}, ${one.place}` }))}
      id="countVessel"
      names="vessel"
      fields={[{ name: "found", label: "member.found", kind: "volume", needed: true, hint: "shelf.foundHint" }]}
      button="stock.write"
    />
  );
}

/** What stands where, by lot; a count of it. */
export default function ShelfView(_: { names: Names }) {
  const { t } = useWords();
  const [place, setPlace] = useState("");
  return (
    <OfficePage title={t("shelf.title")}>
      <Waiting of={useOffice(askShelf)}>
        {({ vessels, stock }) => {
          const places = [...new Set(vessels.map((one) => one.place))].sort();
          const here = vessels.filter((one) => !place || one.place === place);
          return (
            <>
              <Select label={t("stock.place")} value={place} onValue={setPlace} options={[{ value: "", words: t("stock.everywhere") }, ...places.map((one) => ({ value: one, words: one }))]} />
              <ShelfTable rows={shelfRows(here, stock)} />
              <p class="fine">{t("shelf.basis")}</p>
              <Count vessels={here} />
            </>
          );
        }}
      </Waiting>
    </OfficePage>
  );
}
