// SPDX-License-Identifier: Apache-2.0
import { useId } from "preact/hooks";

export interface FieldProps {
  label: string;
  value: string;
  onValue: (value: string) => void;
  hint?: string | undefined;
  fault?: string | undefined;
  type?: "text" | "password" | "search" | "datetime-local" | "date";
  /** Which keys the phone shows. */
  keys?: "text" | "decimal" | "numeric";
  unit?: string | undefined;
  required?: boolean;
  autocomplete?: string;
  maxLength?: number;
}

export function Field(props: FieldProps) {
  const id = useId();
  const { label, value, onValue, hint, fault, type = "text", keys = "text", unit, required, autocomplete = "off", maxLength } = props;
  return (
    <div class={`field${fault ? " faulty" : ""}`}>
      <label for={id}>{label}</label>
      <div class="entry">
        <input
          id={id}
          type={type}
          value={value}
          inputMode={keys}
          required={required}
          autocomplete={autocomplete}
          autocapitalize="none"
          spellcheck={false}
          {...(maxLength ? { maxLength } : {})}
          aria-invalid={fault ? "true" : undefined}
          aria-describedby={`${id}-more`}
          onInput={(event) => onValue(event.currentTarget.value)}
        />
        {unit && <span class="unit" aria-hidden="true">{unit}</span>}
      </div>
      <p id={`${id}-more`} class="more">{fault ?? hint}</p>
    </div>
  );
}
