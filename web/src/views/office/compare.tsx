// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { OfficePage } from "../../components/office/office_page";
import { Select } from "../../components/office/select";
import { SaveText } from "../../components/office/save_text";
import { TextArea } from "../../components/office/text_area";
import { Waiting } from "../../components/office/waiting";
import { askOfficeFor } from "../../data/ask";
import { useWords } from "../../i18n/use_words";
import { isoDay } from "../../office/days";
import { versionsOf, type LabelVersion } from "../../office/shapes";
import { askAll, useOffice } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { SideBySide } from "./side_by_side";

const pasted = "pasted";

interface Known {
  name: string;
  current: string;
  versions: LabelVersion[];
  texts: Record<string, string>;
}

async function askLabels(key: string): Promise<Known> {
  const product = (await askAll("listProducts", { all: "true" })).find((one) => one.product === key);
  const versions = product ? versionsOf(product) : [];
  const texts = await Promise.all(versions.map(async ({ digest }) => [digest, (await askOfficeFor("showLabel", { path: { digest } })).text] as const));
  return { name: product?.name ?? key, current: product?.current ?? "", versions, texts: Object.fromEntries(texts) };
}

function Versions({ known }: { known: Known }) {
  const { t, language } = useWords();
  const { versions, texts } = known;
  const newest = versions[versions.length - 1]?.digest ?? "";
  const [left, setLeft] = useState(versions[versions.length - 2]?.digest ?? newest);
  const [right, setRight] = useState(versions.length > 1 ? newest : pasted);
  const [typed, setTyped] = useState("");
  const options = versions.map((one) => ({
    value: one.digest,
    words: [one.label_date ? isoDay(one.label_date, language) : t("labels.undated"), one.digest.slice(0, 8), one.digest === known.current ? t("labels.inUse") : ""].filter(Boolean).join(", "),
  }));
  const rightText = right === pasted ? typed : (texts[right] ?? "");
  return (
    <>
      <div class="filters">
        <Select label={t("compare.left")} value={left} onValue={setLeft} options={options} />
        <Select label={t("compare.right")} value={right} onValue={setRight} options={[...options, { value: pasted, words: t("compare.pasted") }]} />
      </div>
      {right === pasted && <TextArea label={t("compare.pasted")} value={typed} onValue={setTyped} rows={6} />}
      {rightText ? <SideBySide left={texts[left] ?? ""} right={rightText} /> : <SaveText text={texts[left] ?? ""} name={`${known.name}.toml`} />}
    </>
  );
}

/** Two versions of a label, line by line. */
export default function CompareView({ names }: { names: Names }) {
  const { t } = useWords();
  const product = names.product ?? "";
  const known = useOffice(() => askLabels(product), [product]);
  return (
    <OfficePage title={t("compare.titleOf", { name: known.answer?.name ?? product })} back="/office/labels">
      <Waiting of={known}>{(answer) => (answer.versions.length === 0 ? <p class="empty">{t("labels.none")}</p> : <Versions known={answer} />)}</Waiting>
    </OfficePage>
  );
}
