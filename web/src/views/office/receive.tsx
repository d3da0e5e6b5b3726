// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Notice } from "../../components/notice";
import { OfficePage } from "../../components/office/office_page";
import { Waiting } from "../../components/office/waiting";
import { WriteForm, type FormField, type Typed } from "../../components/office/write_form";
import { Scan } from "../../components/scan";
import { useWords } from "../../i18n/use_words";
import { readDelivery } from "../../office/delivery_code";
import { askAll, useOffice } from "../../office/use_all";
import type { Names } from "../../route/routes";

const askChoices = async () => {
  const [products, places] = await Promise.all([askAll("listProducts"), askAll("listPlaces")]);
  return { products: products.filter((one) => one.current), places };
};

type Choices = Awaited<ReturnType<typeof askChoices>>;

const fieldsFor = ({ products, places }: Choices): FormField[] => [
  { name: "product", label: "plan.product", needed: true, options: products.map((one) => ({ value: one.product, words: `${one.name}, ${one.registration}` })) },
  { name: "part", label: "receive.part", hint: "receive.partHint" },
  { name: "lot", label: "shelf.lot", needed: true },
  { name: "expires", label: "shelf.lastDay", hint: "receive.expiresHint", kind: "date", needed: true },
  { name: "size", label: "receive.size", kind: "volume", needed: true, hint: "receive.sizeHint" },
  { name: "place", label: "stock.place", needed: true, options: places.map((one) => ({ value: one.place, words: one.place })) },
  { name: "container", label: "receive.id", hint: "receive.idHint" },
  { name: "cost", label: "costs.cost", kind: "decimal", hint: "receive.costHint" },
  { name: "supplier", label: "receive.supplier" },
];

function ReceiveForm({ choices }: { choices: Choices }) {
  const { t } = useWords();
  const [typed, setTyped] = useState<Typed>({});
  const [scanned, setScanned] = useState("");
  const [came, setCame] = useState("");
  const take = (text: string) => {
    const code = readDelivery(text);
    setScanned(code.lot || code.expires ? t("receive.read") : t("receive.notRead", { text: code.text }));
    setTyped((before) => ({ ...before, ...(code.lot ? { lot: code.lot } : {}), ...(code.expires ? { expires: code.expires } : {}) }));
  };
  return (
    <>
      <Scan onText={take} />
      <p role="status">{scanned}</p>
      {came && <Notice tone="done" title={t("receive.done", { id: came })}><p><a href={`/stock/${encodeURIComponent(came)}`}>{t("receive.look", { id: came })}</a></p></Notice>}
      <WriteForm
        id="receiveContainer"
        fields={fieldsFor(choices)}
        button="receive.button"
        typed={typed}
        onTyped={setTyped}
        onDone={({ entries }) => setCame(String((entries[0]?.body as { container?: string } | undefined)?.container ?? ""))}
      />
    </>
  );
}

/** A delivery, container by container. */
export default function ReceiveView(_: { names: Names }) {
  const { t } = useWords();
  return (
    <OfficePage title={t("receive.title")}>
      <p>{t("receive.how")}</p>
      <Waiting of={useOffice(askChoices)}>
        {(choices) => choices.products.length === 0
          ? <Notice tone="hold" title={t("receive.noLabel")}><p><a href="/office/labels/adopt">{t("adopt.title")}</a></p></Notice>
          : <ReceiveForm choices={choices} />}
      </Waiting>
    </OfficePage>
  );
}
