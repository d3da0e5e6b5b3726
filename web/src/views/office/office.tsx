// SPDX-License-Identifier: Apache-2.0
import { Badge } from "../../components/office/badge";
import { OfficePage } from "../../components/office/office_page";
import { Waiting } from "../../components/office/waiting";
import { clock } from "../../data/clock";
import { useWords } from "../../i18n/use_words";
import { dueNow, type Due, type Holdings } from "../../office/due";
import { useItemNames } from "../../data/item_names";
import { askAll, useOffice } from "../../office/use_all";
import type { Names } from "../../route/routes";

async function holdings(): Promise<Holdings> {
  const [crew, stock, vessels, foggers, cartridges, places] = await Promise.all([
    askAll("listCrew"), askAll("showStock"), askAll("listVessels"), askAll("listFoggers"), askAll("listCartridges"), askAll("listPlaces"),
  ]);
  return { crew, stock, vessels, foggers, cartridges, places } as Holdings;
}

function DueCard({ due }: { due: Due }) {
  const { t, word } = useWords();
  const nameOf = useItemNames();
  const [member, group] = due.named ?? [];
  const values = {
    ...due.values,
    ...(member && group ? { [member]: word(group, String(due.values[member])) } : {}),
    ...("item" in due.values ? { item: nameOf(String(due.values.item)) } : {}),
  };
  return (
    <li>
      <a class="card" href={due.href}>
        <span class="what">{t(due.words, values)}</span>
        <Badge tone={due.tone}>{t(due.tone === "danger" ? "due.over" : "due.soon")}</Badge>
      </a>
    </li>
  );
}

/** What wants looking at today. */
export default function OfficeView(_: { names: Names }) {
  const { t, tn } = useWords();
  return (
    <OfficePage title={t("nav.office")}>
      <Waiting of={useOffice(holdings)}>
        {(known) => {
          const due = dueNow(known, clock.now());
          return (
            <section>
              <h2>{due.length === 0 ? t("due.none") : tn("due.count", due.length)}</h2>
              <ul class="cards">{due.map((one, at) => <DueCard key={at} due={one} />)}</ul>
              <p class="fine">{t("due.basis")}</p>
            </section>
          );
        }}
      </Waiting>
    </OfficePage>
  );
}
