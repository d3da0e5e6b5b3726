// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { ask } from "../../data/ask";
import type { VesselAction } from "../../driveway/vessel_actions";
import { useWords } from "../../i18n/use_words";
import { typedUnit, withUnit } from "../../settings/units";

export function VesselForm({ vessel, action, onDone }: { vessel: string; action: VesselAction; onDone: () => void }) {
  const { t, word, units } = useWords();
  const [typed, setTyped] = useState<Record<string, string>>({});
  const [fault, setFault] = useState<unknown>();
  const unit = typedUnit[units].volume;
  const given = action.members
    .map(({ name, volume }) => [name, (typed[name] ?? "").trim(), volume] as const)
    .filter(([, text]) => text)
    .map(([name, text, volume]) => [name, volume ? withUnit(text, unit) : text] as const);
  const ready = action.members.every(({ name, needed }) => !needed || (typed[name] ?? "").trim());
  const write = () => ask(action.id, { path: { vessel }, body: Object.fromEntries(given) as never }).then(onDone, setFault);
  return (
    <section>
      <h2>{word("act", action.id)}</h2>
      {action.members.map(({ name, volume, date, needed }) => (
        <Field key={name} label={word("member", name)} value={typed[name] ?? ""} onValue={(text) => setTyped((before) => ({ ...before, [name]: text }))} required={needed} {...(volume ? { keys: "decimal" as const, unit } : {})} {...(date ? { type: "date" as const } : {})} />
      ))}
      <FaultNote fault={fault} />
      <Button kind="main" wide disabled={!ready} onPress={write}>{t("stock.write")}</Button>
    </section>
  );
}
