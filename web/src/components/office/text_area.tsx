// SPDX-License-Identifier: Apache-2.0
import { useId } from "preact/hooks";

/** Several lines, as they were written. */
export function TextArea({ label, value, onValue, rows = 12, hint }: { label: string; value: string; onValue: (value: string) => void; rows?: number; hint?: string }) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <textarea id={id} class="code" rows={rows} value={value} spellcheck={false} autocapitalize="none" aria-describedby={`${id}-more`} onInput={(event) => onValue(event.currentTarget.value)} />
      <p id={`${id}-more`} class="more">{hint}</p>
    </div>
  );
}
