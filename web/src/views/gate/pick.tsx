// SPDX-License-Identifier: Apache-2.0
import { Button } from "../../components/button";
import { Field } from "../../components/field";

/** A field, with the names that are known beside it. */
export function Pick({ label, names, value, onValue, onPick = onValue, words = (name) => name }: { label: string; names: string[]; value: string; onValue: (value: string) => void; onPick?: (name: string) => void; words?: (name: string) => string }) {
  const chosen = value.split(/\s+/);
  return (
    <>
      <Field label={label} value={value} onValue={onValue} />
      <div class="picks">
        {names.slice(0, 12).map((name) => <Button key={name} pressed={value === name || chosen.includes(name)} onPress={() => onPick(name)}>{words(name)}</Button>)}
      </div>
    </>
  );
}
