// SPDX-License-Identifier: Apache-2.0
import { FaultNote } from "../../components/fault_note";
import { Notice } from "../../components/notice";
import { Said } from "../../components/said";
import { shownName } from "../../driveway/return_names";
import { useWords } from "../../i18n/use_words";
import { minutes, volume } from "../../settings/units";
import { respiratorWords } from "./respirator_words";
import type { LivePlan } from "./use_live_plan";

/** The answer first: seconds at each return, what to load, what to wear, how long to stay out. */
export function PlanResult({ live }: { live: LivePlan }) {
  const { t, units, language } = useWords();
  const { plan, fault } = live;
  if (fault) return <FaultNote fault={fault} />;
  if (!plan) return <p class="empty">{t("plan.typeFirst")}</p>;
  const returns = plan.systems.flatMap((system) => system.returns);
  return (
    <section class="answer" aria-live="polite">
      <ul class="seconds">
        {returns.map((one) => (
          <li key={one.name}>
            <span class="big figures">{one.seconds}<small> s</small></span>
            <span>{shownName(one.name)}</span>
            <span class="fine figures">{one.band_seconds[0]}–{one.band_seconds[1]} s</span>
          </li>
        ))}
      </ul>
      <dl class="facts">
        <dt>{t("plan.load")}</dt>
        <dd>{volume(plan.load_ml * 1000, units, "up", language)} <small>{t(plan.flow.basis.startsWith("estimated") ? "plan.flowEstimated" : "plan.flowMeasured")}</small></dd>
        <dt>{t("plan.hold")}</dt><dd>{minutes(plan.hold_minutes.total)}</dd>
        <dt>{t("plan.respirator")}</dt>
        <dd>{plan.respirator.required ? respiratorWords(plan.respirator) : t("plan.noRespirator")}</dd>
      </dl>
      {plan.respirator.do_not_enter && <Notice tone="danger" title={t("plan.doNotEnter")} live />}
      {plan.warnings.map((warning) => <Notice key={warning.id} tone="hold"><p><Said text={warning.words} /></p></Notice>)}
      <p class="fine">{t("common.labelOutranks")}</p>
    </section>
  );
}
