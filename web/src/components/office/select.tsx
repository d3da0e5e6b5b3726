// SPDX-License-Identifier: Apache-2.0
import { useId } from "preact/hooks";
import type { Option } from "../choice";

/** One of many. */
export function Select({ label, options, value, onValue }: { label: string; options: Option<string>[]; value: string; onValue: (value: string) => void }) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select id={id} value={value} onChange={(event) => onValue(event.currentTarget.value)}>
        {options.map((option) => <option key={option.value} value={option.value}>{option.words}</option>)}
      </select>
    </div>
  );
}
