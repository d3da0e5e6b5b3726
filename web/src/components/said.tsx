// SPDX-License-Identifier: Apache-2.0
import { said } from "../i18n";
import { useWords } from "../i18n/use_words";

/** What the desk, the engine or the server said, marked with the language that it stands in. */
export function Said({ text }: { text: string | undefined }) {
  useWords();
  if (!text) return null;
  const own = said(text);
  return <span lang={own.language}>{own.text}</span>;
}
