// SPDX-License-Identifier: Apache-2.0
// A batch by the label's mixing table: what to measure out, in which order, and out of which containers it was.
import { useState } from "preact/hooks";
import { Choice } from "../../components/choice";
import { FaultNote } from "../../components/fault_note";
import { Loading } from "../../components/loading";
import { Page } from "../../components/page";
import { useItemNames } from "../../data/item_names";
import { useAsk } from "../../data/use_ask";
import { planOf } from "../../driveway/shapes";
import { useWords } from "../../i18n/use_words";
import type { Names } from "../../route/routes";
import { typed, volume } from "../../settings/units";
import { MixForm } from "./mix_form";

/** For a job: its product, and what it is to be loaded with. */
function JobMix({ id }: { id: string }) {
  const { t, units } = useWords();
  const { answer: job, fault } = useAsk("showJob", { path: { job: id } });
  const nameOf = useItemNames();
  const gate = `/jobs/${encodeURIComponent(id)}/gate`;
  // As the engine reads it, whatever the language of the page.
  const load = job ? volume(planOf(job).load_ul, units, "up", "en") : "";
  return (
    <Page title={t("mix.title")} back={gate}>
      {!job && !fault && <Loading />}
      <FaultNote fault={fault} />
      {job && <p>{t("mix.forJob", { job: id, product: nameOf(job.product), load })}</p>}
      {job && <MixForm product={job.product} make={typed(load)} place={(job as { van?: string }).van ?? ""} back={gate} />}
    </Page>
  );
}

function AnyMix() {
  const { t } = useWords();
  const { answer, fault } = useAsk("listProducts");
  const [product, setProduct] = useState("");
  const known = (answer?.items ?? []).filter((one) => one.current);
  return (
    <Page title={t("mix.title")} back="/stock">
      {!answer && !fault && <Loading />}
      <FaultNote fault={fault} />
      <Choice label={t("plan.product")} value={product} onValue={setProduct} options={known.map((one) => ({ value: one.product, words: one.name, detail: one.registration }))} />
      {product && <MixForm key={product} product={product} make="" place="" back="/stock" />}
    </Page>
  );
}

export default function MixView({ names }: { names: Names }) {
  return names.job ? <JobMix id={names.job} /> : <AnyMix />;
}
