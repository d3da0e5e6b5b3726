// SPDX-License-Identifier: Apache-2.0
import { useWords } from "../../i18n/use_words";

/** On what a rule stands: its kind, and the citation where that says more. */
export function Basis({ rule }: { rule: { kind: string; citation: string } }) {
  const { word } = useWords();
  return <>{word("ruleKind", rule.kind)}{rule.citation !== rule.kind && <span lang="en">: {rule.citation}</span>}</>;
}
