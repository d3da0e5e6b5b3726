// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { Choice } from "../../components/choice";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { LinkButton } from "../../components/link_button";
import { Loading } from "../../components/loading";
import { Page } from "../../components/page";
import { Scan } from "../../components/scan";
import { largestPage } from "../../data/ask";
import { useItemNames } from "../../data/item_names";
import { useAsk } from "../../data/use_ask";
import { containerOf } from "../../driveway/scan_text";
import { useWords } from "../../i18n/use_words";
import { go } from "../../route/router";
import type { Names } from "../../route/routes";
import { volume } from "../../settings/units";
import { Icon } from "../../components/icon";

const pathOf = (id: string) => `/stock/${encodeURIComponent(id)}`;

/** What stands on a van or in the shop, first expired first; one container by scan. */
export function StockView(_: { names: Names }) {
  const { t, units, language } = useWords();
  const places = useAsk("listPlaces");
  const name = useItemNames();
  const [place, setPlace] = useState("");
  const [typed, setTyped] = useState("");
  const { answer, fault } = useAsk("listVessels", { query: { limit: largestPage, ...(place ? { place } : {}) } });
  return (
    <Page title={t("nav.stock")}>
      <Scan onText={(text) => go(pathOf(containerOf(text)))} />
      <form class="scan-typed" onSubmit={(event) => (event.preventDefault(), typed.trim() && go(pathOf(typed.trim())))}>
        <Field label={t("stock.typeId")} value={typed} onValue={setTyped} />
        <Button type="submit">{t("stock.show")}</Button>
      </form>
      <div class="picks"><LinkButton href="/mix">{t("mix.open")}</LinkButton></div>
      <Choice label={t("stock.place")} value={place} onValue={setPlace} options={[{ value: "", words: t("stock.everywhere") }, ...(places.answer?.items ?? []).map((one) => ({ value: one.place, words: one.place }))]} />
      {!answer && !fault && <Loading />}
      <FaultNote fault={fault} />
      {answer?.items.length === 0 && <p class="empty">{t("stock.none")}</p>}
      <ul class="cards">
        {(answer?.items ?? []).map((one) => (
          <li key={one.id}>
            <a class="card" href={pathOf(one.id)}>
              <span class="what">
                <strong>{one.id}</strong>
                <span>{name(one.item)}</span>
                <span>{t("stock.lot", { lot: one.lot })}</span>
                <span>{one.place}</span>
              </span>
              <span class="figures">{volume(one.remaining_ul, units, "down", language)}{!one.usable && <strong class="past">{t("stock.pastDate")}</strong>}</span>
              <Icon name="next" />
            </a>
          </li>
        ))}
      </ul>
      {answer?.next && <p class="fine">{t("stock.first", { n: answer.items.length })}</p>}
    </Page>
  );
}
