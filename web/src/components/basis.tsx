// SPDX-License-Identifier: Apache-2.0
import { useWords } from "../i18n/use_words";

/** On what a rule stands: its kind, and the citation where that says more. Gate and audit name policy differently. */
export function Basis({ kind, citation }: { kind: string; citation: string }) {
  const { word } = useWords();
  const [said, name] = [citation.toLowerCase(), word("basis", kind === "company policy" ? "policy" : kind)];
  if (!citation || said === kind) return <>{name}</>;
  return <>{!said.includes(kind) && `${name}: `}<span lang="en">{citation}</span></>;
}
