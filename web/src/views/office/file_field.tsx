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
  // The browser's own button speaks the browser's language; this one speaks that of the page.
  return (
    <div class="file">
      <input id={id} class="unseen" type="file" accept=".toml,text/plain" onChange={(event) => read(event.currentTarget.files?.[0])} />
      <label for={id} class="button">{label}</label>
    </div>
  );
}
