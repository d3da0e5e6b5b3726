// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { AuditPage } from "../../components/office/office_page";
import { Field } from "../../components/field";
import { Select } from "../../components/office/select";
import { Waiting } from "../../components/office/waiting";
import { useWords } from "../../i18n/use_words";
import { ownZone } from "../../office/days";
import { paperAddress, type PaperOrder } from "../../office/papers";
import { askAll, useOffice } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { languages, unitSystems } from "../../settings/preferences";
import { JobPapers, PaperLinks } from "./job_papers";

const askChoices = async () => {
  const [jobs, places, products] = await Promise.all([askAll("listJobs", { all: "true" }), askAll("listPlaces", { all: "true" }), askAll("listProducts")]);
  return { jobs: jobs.sort((a, b) => b.planned_ms - a.planned_ms).map((one) => one.job), places: places.map((one) => one.place), products };
};
type Choices = Awaited<ReturnType<typeof askChoices>>;
type Order = Omit<PaperOrder, "as">;

function HowItLooks({ order, onOrder }: { order: Order; onOrder: (part: Partial<Order>) => void }) {
  const { t, word } = useWords();
  return (
    <div class="filters">
      <Select label={t("more.language")} value={order.language} onValue={(value) => onOrder({ language: value as Order["language"] })} options={languages.map((value) => ({ value, words: word("language", value) }))} />
      <Select label={t("more.units")} value={order.units} onValue={(value) => onOrder({ units: value as Order["units"] })} options={unitSystems.map((value) => ({ value, words: word("units", value) }))} />
      <Select label={t("papers.size")} value={order.size} onValue={(value) => onOrder({ size: value as Order["size"] })} options={[{ value: "letter", words: t("papers.letter") }, { value: "a4", words: "A4" }]} />
      <Field label={t("plan.zone")} value={order.zone} onValue={(zone) => onOrder({ zone })} />
    </div>
  );
}

function OfJob({ jobs, order }: { jobs: string[]; order: Order }) {
  const { t } = useWords();
  const [job, setJob] = useState(jobs[0] ?? "");
  if (!job) return <p class="empty">{t("life.none")}</p>;
  return (
    <>
      <Select label={t("papers.job")} value={job} onValue={setJob} options={jobs.map((value) => ({ value, words: value }))} />
      <JobPapers job={job} zone={order.zone} order={order} />
    </>
  );
}

function OfStock({ choices, order }: { choices: Choices; order: Order }) {
  const { t, word } = useWords();
  const [place, setPlace] = useState("");
  const labelled = place || choices.places[0] || "";
  return (
    <>
      <Select label={t("stock.place")} value={place} onValue={setPlace} options={[{ value: "", words: t("stock.everywhere") }, ...choices.places.map((value) => ({ value, words: value }))]} />
      <ul class="papers">
        <PaperLinks title={word("paper", "inventory")} addressAs={(as) => paperAddress("printInventory", { ...order, as }, {}, { place })} />
        {labelled && <PaperLinks title={t("papers.labelsOf", { place: labelled })} addressAs={(as) => paperAddress("printLabels", { ...order, as }, {}, { place: labelled })} />}
        {choices.products.map((one) => (
          <PaperLinks key={one.product} title={t("papers.mixingOf", { name: one.name })} addressAs={(as) => paperAddress("printMixing", { ...order, as }, { product: one.product })} />
        ))}
      </ul>
    </>
  );
}

/** What can be printed, handed over, or sent. */
export default function PapersView(_: { names: Names }) {
  const { t, word, language, units } = useWords();
  const [changed, setChanged] = useState<Partial<Order>>({});
  const order: Order = { language, units, size: "letter", zone: ownZone(), ...changed };
  return (
    <AuditPage title={t("papers.title")}>
      <HowItLooks order={order} onOrder={(part) => setChanged({ ...changed, ...part })} />
      <Waiting of={useOffice(askChoices)}>
        {(choices) => (
          <>
            <section><h2>{t("papers.ofJob")}</h2><OfJob jobs={choices.jobs} order={order} /></section>
            <section><h2>{t("papers.ofStock")}</h2><OfStock choices={choices} order={order} /></section>
            <section><h2>{t("nav.audit")}</h2><ul class="papers"><PaperLinks title={word("paper", "audit")} addressAs={(as) => paperAddress("printAudit", { ...order, as })} /></ul></section>
          </>
        )}
      </Waiting>
    </AuditPage>
  );
}
