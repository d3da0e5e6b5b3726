// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { useWords } from "../../i18n/use_words";
import { Button } from "../button";

function saveAs(name: string, text: string): void {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "text/plain" }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** Shown, copied, kept as a file. */
export function SaveText({ text, name }: { text: string; name: string }) {
  const { t } = useWords();
  const [copied, setCopied] = useState<boolean>();
  const copy = () => navigator.clipboard.writeText(text).then(() => setCopied(true), () => setCopied(false));
  return (
    <>
      <pre class="code" tabIndex={0}>{text}</pre>
      <div class="actions">
        <Button onPress={copy}>{t("save.copy")}</Button>
        <Button onPress={() => saveAs(name, text)}>{t("save.file", { name })}</Button>
      </div>
      <p role="status">{copied === undefined ? "" : t(copied ? "save.copied" : "save.notCopied")}</p>
    </>
  );
}
