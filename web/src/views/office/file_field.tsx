// SPDX-License-Identifier: Apache-2.0
import { useId } from "preact/hooks";
import { useWords } from "../../i18n/use_words";

/** A text file of this device; it is read here and goes nowhere by itself. */
export function FileField({ label, greatest, onText, onFault }: { label: string; greatest: number; onText: (text: string) => void; onFault: (fault: unknown) => void }) {
  const { t } = useWords();
  const id = useId();
  const read = (file: File | undefined) => {
    if (!file) return;
    if (file.size > greatest) onFault(new Error(t("adopt.tooLarge")));
    else file.text().then(onText, onFault);
  };
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input id={id} type="file" accept=".toml,text/plain" onChange={(event) => read(event.currentTarget.files?.[0])} />
    </div>
  );
}
