// SPDX-License-Identifier: Apache-2.0
import { Button } from "../../components/button";
import { Field } from "../../components/field";
import type { DraftReturn } from "../../driveway/plan_draft";
import { useWords } from "../../i18n/use_words";
import { typedUnit } from "../../settings/units";

export function ReturnsEditor({ returns, onReturns, onAdd }: { returns: DraftReturn[]; onReturns: (returns: DraftReturn[]) => void; onAdd: () => void }) {
  const { t, units } = useWords();
  const change = (key: number, part: Partial<DraftReturn>) => onReturns(returns.map((one) => (one.key === key ? { ...one, ...part } : one)));
  return (
    <fieldset class="group">
      <legend>{t("plan.returns", { n: returns.length })}</legend>
      {returns.map((one, at) => (
        <div key={one.key} class="return-row">
          <Field label={t("plan.returnName", { n: at + 1 })} value={one.name} onValue={(name) => change(one.key, { name })} />
          <Field label={t("plan.face")} value={one.face} onValue={(face) => change(one.key, { face })} unit={typedUnit[units].face} />
          <Button icon="cross" disabled={returns.length === 1} onPress={() => onReturns(returns.filter((other) => other.key !== one.key))}>{t("plan.removeReturn", { n: at + 1 })}</Button>
        </div>
      ))}
      <p class="fine">{t("plan.faceHint")}</p>
      <Button icon="plan" wide onPress={onAdd}>{t("plan.addReturn")}</Button>
    </fieldset>
  );
}
