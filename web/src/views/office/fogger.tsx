// SPDX-License-Identifier: Apache-2.0
import type { Fogger } from "../../api/generated";
import { Chart } from "../../components/office/chart";
import { FoldOut } from "../../components/office/fold_out";
import { Notice } from "../../components/notice";
import { OfficePage } from "../../components/office/office_page";
import { Table } from "../../components/office/table";
import { Waiting } from "../../components/office/waiting";
import { WriteForm } from "../../components/office/write_form";
import { askOfficeFor } from "../../data/ask";
import { hasRole } from "../../data/session";
import { useWords } from "../../i18n/use_words";
import { endOfDay, isoDay } from "../../office/days";
import { driftAt } from "../../office/foggers";
import type { CatchDay } from "../../office/shapes";
import { useOffice } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { number } from "../../settings/units";
import { CatchTestForm } from "./catch_test_form";
import { Drift } from "./drift";

function Tests({ fogger, tests }: { fogger: Fogger; tests: CatchDay[] }) {
  const { t, language } = useWords();
  const flow = (ul: number) => number(ul / 1000, 1, language);
  const flows = (pick: (test: CatchDay) => number) => tests.map((test) => pick(test) / 1000);
  return (
    <>
      {tests.length > 1 && (
        <Chart
          label={t("gear.flowOf", { fogger: fogger.fogger })}
          timesMs={tests.map((test) => endOfDay(test.on))}
          lines={[
            { label: "mL/min", look: "main", values: flows((test) => test.flow_ul_min) },
            { label: t("gear.low"), look: "across", values: flows((test) => test.low_ul_min) },
            { label: t("gear.high"), look: "across", values: flows((test) => test.high_ul_min) },
          ]}
        />
      )}
      <Table
        caption={t("gear.tests")}
        empty={t("gear.never")}
        rows={tests.map((test, at) => ({ ...test, drift: driftAt(tests, at) })).reverse()}
        keyOf={(test) => `${test.on} ${test.flow_ul_min}`}
        columns={[
          { head: t("trends.when"), cell: (test) => isoDay(test.on, language) },
          { head: t("gear.flow"), figure: true, cell: (test) => `${flow(test.flow_ul_min)} mL/min` },
          { head: t("gear.between"), figure: true, cell: (test) => `${t("gear.range", { low: flow(test.low_ul_min), high: flow(test.high_ul_min) })} mL/min` },
          { head: t("gear.runs"), figure: true, cell: (test) => test.runs },
          { head: t("gear.drift"), cell: (test) => <Drift drift={test.drift} tests={tests.length} /> },
        ]}
      />
      <p class="fine">{t("gear.basis")}</p>
    </>
  );
}

/** One fogger: its catch tests, and how its flow drifts. */
export default function FoggerView({ names }: { names: Names }) {
  const { t } = useWords();
  const fogger = names.fogger ?? "";
  return (
    <OfficePage title={fogger} back="/office/gear">
      <Waiting of={useOffice(() => askOfficeFor("showFogger", { path: { fogger } }), [fogger])}>
        {(answer) => (
          <>
            {!answer.active && <Notice tone="hold" title={t("gear.outOfUse")} />}
            <Tests fogger={{ ...answer, fogger }} tests={answer.tests as unknown as CatchDay[]} />
            {answer.active && <CatchTestForm fogger={fogger} />}
            {answer.active && (hasRole("owner") || hasRole("safety-officer")) && (
              <FoldOut title={t("gear.retire")}>
                <WriteForm id="retireFogger" path={{ fogger }} grave button="gear.retireButton" fields={[{ name: "why", label: "stop.why", needed: true }]} />
              </FoldOut>
            )}
          </>
        )}
      </Waiting>
    </OfficePage>
  );
}
