// SPDX-License-Identifier: Apache-2.0
import type { Job } from "../../api/generated";
import { Notice } from "../../components/notice";
import { shownName } from "../../driveway/return_names";
import { foggedMs, planOf } from "../../driveway/shapes";
import { useWords } from "../../i18n/use_words";
import { area, minutes, volume } from "../../settings/units";
import { respiratorWords } from "../plan/respirator_words";

/** The plan as it was recorded: seconds, load, respirator, hold. */
export function PlanFacts({ job }: { job: Job }) {
  const { t, units, language } = useWords();
  const plan = planOf(job);
  return (
    <section>
      <h2>{t("plan.title")}</h2>
      {plan.respirator.do_not_enter && <Notice tone="danger" title={t("plan.doNotEnter")} />}
      {plan.systems.map((system) => (
        <table key={system.name} class="figures">
          <caption>{shownName(system.name)}, {area(system.area_mm2, units, language)}</caption>
          <thead>
            <tr><th scope="col">{t("plan.return")}</th><th scope="col">{t("plan.seconds")}</th><th scope="col">{t("plan.band")}</th><th scope="col">{t("plan.done")}</th></tr>
          </thead>
          <tbody>
            {system.returns.map((one) => (
              <tr key={one.name}>
                <th scope="row">{shownName(one.name)}</th>
                <td><strong>{one.seconds}</strong></td>
                <td>{one.band_s[0]}–{one.band_s[1]}</td>
                <td>{Math.floor(foggedMs(job, system.name, one.name) / 100) / 10}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
      <dl class="facts">
        <dt>{t("plan.load")}</dt><dd>{volume(plan.load_ul, units, "up", language)}</dd>
        <dt>{t("plan.respirator")}</dt>
        <dd>{plan.respirator.required ? respiratorWords(plan.respirator) : t("plan.noRespirator")}</dd>
        <dt>{t("plan.hold")}</dt><dd>{minutes(plan.hold_minutes.total)}</dd>
      </dl>
      <p class="fine">{t("common.labelOutranks")}</p>
    </section>
  );
}
