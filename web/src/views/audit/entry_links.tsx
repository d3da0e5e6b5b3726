// SPDX-License-Identifier: Apache-2.0
import { useWords } from "../../i18n/use_words";

/** By their numbers in the book. */
export function EntryLinks({ seqs }: { seqs: number[] }) {
  const { t } = useWords();
  if (seqs.length === 0) return <>{t("departures.noEntries")}</>;
  return <>{seqs.map((seq) => <a key={seq} class="inline" href={`/audit/entries/${seq}`}>{seq}</a>)}</>;
}
