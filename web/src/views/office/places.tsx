// SPDX-License-Identifier: Apache-2.0
import { FoldOut } from "../../components/office/fold_out";
import { OfficePage } from "../../components/office/office_page";
import { Table } from "../../components/office/table";
import { Waiting } from "../../components/office/waiting";
import { WriteForm } from "../../components/office/write_form";
import { WriteOneOf } from "../../components/office/write_one_of";
import { hasRole } from "../../data/session";
import { useWords } from "../../i18n/use_words";
import { minuteOf } from "../../office/days";
import type { PlaceRow } from "../../office/shapes";
import { temperature } from "../../office/temperature";
import { useAll } from "../../office/use_all";
import type { Names } from "../../route/routes";

/** Shops and vans, and how warm it is where product is kept. */
export default function PlacesView(_: { names: Names }) {
  const { t, word, units, language } = useWords();
  return (
    <OfficePage title={t("places.title")}>
      <Waiting of={useAll("listPlaces")}>
        {(all) => {
          const places = all as PlaceRow[];
          return (
            <>
              <Table
                caption={t("places.caption")}
                empty={t("places.none")}
                rows={places}
                keyOf={(one) => one.place}
                columns={[
                  { head: t("stock.place"), cell: (one) => one.place },
                  { head: t("places.type"), cell: (one) => word("placeType", one.type) },
                  { head: t("places.temperature"), figure: true, cell: (one) => (one.last_temperature_mk === undefined ? "–" : temperature(one.last_temperature_mk, units, language)) },
                  { head: t("places.when"), cell: (one) => (one.last_read_ms ? minuteOf(one.last_read_ms, language) : t("gear.never")) },
                ]}
              />
              <p class="fine">{t("places.basis")}</p>
              <WriteOneOf
                title={t("places.read")}
                label={t("stock.place")}
                options={places.map((one) => ({ value: one.place, words: one.place }))}
                id="readStorage"
                names="place"
                button="stock.write"
                fields={[{ name: "temperature", label: "places.temperature", hint: "places.temperatureHint", needed: true }]}
              />
              {hasRole("owner") && (
                <FoldOut title={t("places.add")}>
                  <WriteForm id="addPlace" button="stock.write" fields={[
                    { name: "place", label: "gear.name", needed: true },
                    { name: "type", label: "places.type", needed: true, options: ["van", "shop"].map((value) => ({ value, words: word("placeType", value) })) },
                    { name: "note", label: "gear.note" },
                  ]} />
                </FoldOut>
              )}
            </>
          );
        }}
      </Waiting>
    </OfficePage>
  );
}
