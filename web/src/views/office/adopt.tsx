// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { Notice } from "../../components/notice";
import { OfficePage } from "../../components/office/office_page";
import { Select } from "../../components/office/select";
import { TextArea } from "../../components/office/text_area";
import { askOfficeFor } from "../../data/ask";
import { useWords } from "../../i18n/use_words";
import { labelFaults } from "../../office/fault_lines";
import { useAll } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { FaultList } from "./fault_list";
import { FileField } from "./file_field";

const greatest = 1_000_000; // docs/labels.md

/** A label's profile becomes what the firm works by. */
export default function AdoptView(_: { names: Names }) {
  const { t } = useWords();
  const products = useAll("listProducts", { all: "true" }).answer ?? [];
  const [text, setText] = useState("");
  const [product, setProduct] = useState("");
  const [fault, setFault] = useState<unknown>();
  const [adopted, setAdopted] = useState("");
  const faults = labelFaults(fault);
  const write = (typed: string) => (setFault(undefined), setAdopted(""), setText(typed));
  const adopt = async () => {
    setFault(undefined);
    await askOfficeFor("adoptLabel", { body: { text, ...(product ? { product } : {}) } }).then(
      ({ entries }) => setAdopted(String((entries[0]?.body as { product?: string } | undefined)?.product ?? "")), setFault);
  };
  return (
    <OfficePage title={t("adopt.title")} back="/office/labels">
      <p>{t("adopt.how")}</p>
      <div class="form">
        <FileField label={t("adopt.file")} greatest={greatest} onText={write} onFault={setFault} />
        <TextArea label={t("adopt.text")} value={text} onValue={write} hint={t("adopt.textHint")} rows={16} />
        <Select label={t("adopt.product")} value={product} onValue={setProduct} options={[{ value: "", words: t("adopt.byName") }, ...products.map((one) => ({ value: one.product, words: one.name }))]} />
        {faults.some((one) => one.line) ? <FaultList faults={faults} text={text} /> : <FaultNote fault={fault} />}
        {adopted && (
          <Notice tone="done" title={t("adopt.done", { product: adopted })} live>
            <p><a href={`/office/labels/compare/${encodeURIComponent(adopted)}`}>{t("compare.title")}</a></p>
          </Notice>
        )}
        <Button kind="main" disabled={!text.trim()} onPress={adopt}>{t("adopt.button")}</Button>
      </div>
    </OfficePage>
  );
}
