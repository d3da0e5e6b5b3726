// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { FoldOut } from "../../components/office/fold_out";
import { Select } from "../../components/office/select";
import { WriteForm, type FormField } from "../../components/office/write_form";
import { useWords } from "../../i18n/use_words";

const kinds = ["fit-test", "medical-clearance", "licence", "training"] as const;
const facepieces = ["half-mask", "full-facepiece"] as const;

type Kind = (typeof kinds)[number];

/** What each kind asks for beside its dates. */
function fieldsFor(kind: Kind, word: (group: string, name: string) => string): FormField[] {
  const dates: FormField[] = [
    { name: "issued", label: "credential.issued", kind: "date", needed: true },
    { name: "expires", label: "shelf.lastDay", kind: "date", needed: kind !== "training" },
  ];
  const issuer: FormField = { name: "issuer", label: "credential.issuer" };
  if (kind === "fit-test")
    return [
      { name: "facepiece", label: "credential.facepiece", needed: true, options: facepieces.map((value) => ({ value, words: word("facepiece", value) })) },
      { name: "model", label: "credential.model", hint: "credential.modelHint", needed: true },
      { name: "size", label: "credential.size", needed: true },
      ...dates,
      { name: "result", label: "credential.result", hint: "credential.resultHint" },
    ];
  return kind === "licence" ? [{ name: "number", label: "credential.number", needed: true }, ...dates, issuer] : [...dates, issuer];
}

export function AddCredential({ handle }: { handle: string }) {
  const { t, word } = useWords();
  const [kind, setKind] = useState<Kind>("fit-test");
  return (
    <FoldOut title={t("credential.add")}>
      <Select label={t("credential.what")} value={kind} onValue={(value) => setKind(value as Kind)} options={kinds.map((value) => ({ value, words: word("credential", value) }))} />
      <WriteForm key={kind} id="addCredential" path={{ handle }} fixed={{ what: kind }} fields={fieldsFor(kind, word)} button="stock.write" />
    </FoldOut>
  );
}
