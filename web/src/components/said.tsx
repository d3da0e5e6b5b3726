// SPDX-License-Identifier: Apache-2.0
import { withItemWords, type NamedItem } from "../driveway/item_words";
import { said } from "../i18n";
import { useWords } from "../i18n/use_words";

/**
 * What the desk, the engine or the server said, marked with the language that it stands in. `items`: those of the job that it
 * speaks of, so that they have their words in English, too.
 */
export function Said({ text, items = [] }: { text: string | undefined; items?: NamedItem[] | undefined }) {
  useWords();
  if (!text) return null;
  const own = said(text);
  return <span lang={own.language}>{own.language === "en" ? withItemWords(own.text, items) : own.text}</span>;
}
