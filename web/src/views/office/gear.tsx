// SPDX-License-Identifier: Apache-2.0
import type { Fogger } from "../../api/generated";
import { FoldOut } from "../../components/office/fold_out";
import { OfficePage } from "../../components/office/office_page";
import { Table } from "../../components/office/table";
import { Waiting } from "../../components/office/waiting";
import { WriteForm } from "../../components/office/write_form";
import { hasRole } from "../../data/session";
import { useWords } from "../../i18n/use_words";
import { isoDay } from "../../office/days";
import { lastDrift } from "../../office/foggers";
import type { Cartridge, CatchDay } from "../../office/shapes";
import { useAll } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { number, volume } from "../../settings/units";
import { Cartridges } from "./cartridges";
import { Drift } from "./drift";

const testsOf = (fogger: Fogger) => fogger.tests as unknown as CatchDay[];

function Foggers({ foggers }: { foggers: Fogger[] }) {
  const { t, units, language } = useWords();
  const last = (one: Fogger) => testsOf(one)[testsOf(one).length - 1];
  return (
    <Table
      caption={t("gear.foggers")}
      headed
      empty={t("gear.noFogger")}
      rows={foggers}
      keyOf={(one) => one.fogger}
      columns={[
        { head: t("plan.fogger"), cell: (one) => <a class="inline" href={`/office/gear/foggers/${encodeURIComponent(one.fogger)}`}>{one.fogger}</a> },
        { head: t("gear.tank"), figure: true, cell: (one) => (one.tank_ul ? volume(one.tank_ul, units, "down", language) : "–") },
        { head: t("gear.tested"), cell: (one) => { const on = last(one)?.on; return on ? isoDay(on, language) : t("gear.never"); } },
        { head: t("gear.flow"), figure: true, cell: (one) => { const test = last(one); return test ? `${number(test.flow_ul_min / 1000, 1, language)} mL/min` : "–"; } },
        { head: t("gear.drift"), cell: (one) => <Drift drift={lastDrift(testsOf(one))} tests={testsOf(one).length} /> },
      ]}
    />
  );
}

/** Foggers and respirator cartridges. */
export default function GearView(_: { names: Names }) {
  const { t } = useWords();
  const foggers = useAll("listFoggers");
  const cartridges = useAll("listCartridges");
  return (
    <OfficePage title={t("gear.title")}>
      <section>
        <h2>{t("gear.foggers")}</h2>
        <Waiting of={foggers}>{(all) => <Foggers foggers={all} />}</Waiting>
        {(hasRole("owner") || hasRole("technician")) && (
          <FoldOut title={t("gear.addFogger")}>
            <WriteForm id="addFogger" button="stock.write" fields={[
              { name: "fogger", label: "gear.name", needed: true },
              { name: "tank", label: "gear.tank", kind: "volume" },
              { name: "empty_weight", label: "gear.weight", hint: "gear.weightHint" },
              { name: "note", label: "gear.note" },
            ]} />
          </FoldOut>
        )}
      </section>
      <section>
        <h2>{t("gear.cartridges")}</h2>
        <Waiting of={cartridges}>{(all) => <Cartridges cartridges={all as Cartridge[]} />}</Waiting>
      </section>
    </OfficePage>
  );
}
