// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { AuditPage } from "../../components/office/office_page";
import { Select } from "../../components/office/select";
import { Waiting } from "../../components/office/waiting";
import { askOfficeFor } from "../../data/ask";
import { useWords } from "../../i18n/use_words";
import type { HeldRecord, KeptRecord } from "../../office/shapes";
import { askAll, useOffice } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { HeldTable } from "./held_table";
import { KeptTable } from "./kept_table";

const askKept = async () => (await askOfficeFor("showRetention")).records as unknown as KeptRecord[];
const askHeld = async (query: { job?: string; person?: string }) => (await askOfficeFor("showRetention", { query })).records as unknown as HeldRecord[];
const askChoices = async () => {
  const [jobs, crew] = await Promise.all([askAll("listJobs", { all: "true" }), askAll("listCrew", { all: "true" })]);
  return [...crew.map((one) => ({ value: `person ${one.handle}`, words: one.handle })), ...jobs.map((one) => ({ value: `job ${one.job}`, words: one.job }))];
};

/** Of one job or person: what may not go yet. */
function OfOne() {
  const { t } = useWords();
  const choices = useOffice(askChoices).answer ?? [];
  const [of, setOf] = useState("");
  const [member, ...name] = of.split(" ");
  const kept = useOffice(async () => (of ? askHeld({ [member ?? ""]: name.join(" ") }) : []), [of]);
  return (
    <section>
      <h2>{t("keep.ofOne")}</h2>
      <p>{t("keep.ofOneWhy")}</p>
      <Select label={t("keep.which")} value={of} onValue={setOf} options={[{ value: "", words: t("form.none") }, ...choices]} />
      {of && <Waiting of={kept}>{(records) => <HeldTable records={records} />}</Waiting>}
    </section>
  );
}

/** What must be kept, how long, and by which rule. */
export default function KeepView(_: { names: Names }) {
  const { t } = useWords();
  return (
    <AuditPage title={t("keep.title")}>
      <p>{t("keep.means")}</p>
      <Waiting of={useOffice(askKept)}>{(records) => <KeptTable records={records} />}</Waiting>
      <OfOne />
    </AuditPage>
  );
}
