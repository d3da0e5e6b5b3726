// SPDX-License-Identifier: Apache-2.0
import { Fragment } from "preact";
import { useWords } from "../i18n/use_words";

/** Kinds of basis that gate and audit name in more words than the pages; what follows them is a citation. */
const named: [begins: string, kind: string][] = [["common practice, no source", "noSource"], ["company policy", "policy"]];

/** On what a rule stands: its kind in the language in use, and the citation as it is written where that says more. */
export function Basis({ kind, citation }: { kind: string; citation: string }) {
  const { word } = useWords();
  const parts = (citation || kind).split("; ").map((part) => {
    const [begins, name] = named.find(([words]) => part.startsWith(words)) ?? [part, part];
    const own = word("basis", name);
    return own === name ? { own: "", cited: part } : { own, cited: part.slice(begins.length) };
  });
  const told = parts.some(({ own }) => own) || citation.toLowerCase().includes(kind);
  return (
    <>
      {!told && `${word("basis", kind === "company policy" ? "policy" : kind)}: `}
      {parts.map(({ own, cited }, at) => <Fragment key={at}>{at > 0 && "; "}{own}{cited && <span lang="en">{cited}</span>}</Fragment>)}
    </>
  );
}
