// SPDX-License-Identifier: Apache-2.0
import { useId } from "preact/hooks";

export interface Option<T extends string> {
  value: T;
  words: string;
  detail?: string | undefined;
}

/** One of a few, as large as thumbs need it. */
export function Choice<T extends string>({ label, options, value, onValue }: { label: string; options: Option<T>[]; value: T; onValue: (value: T) => void }) {
  const name = useId();
  return (
    <fieldset class="choice">
      <legend>{label}</legend>
      {options.map((option) => (
        <label key={option.value} class={option.value === value ? "chosen" : ""}>
          <input type="radio" name={name} checked={option.value === value} onChange={() => onValue(option.value)} />
          <span>
            {option.words}
            {option.detail && <small>{option.detail}</small>}
          </span>
        </label>
      ))}
    </fieldset>
  );
}
