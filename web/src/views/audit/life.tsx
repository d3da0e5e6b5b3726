// SPDX-License-Identifier: Apache-2.0
import type { Job } from "../../api/generated";
import { AuditPage } from "../../components/office/office_page";
import { Waiting } from "../../components/office/waiting";
import { Said } from "../../components/said";
import { StateMark } from "../../components/state_mark";
import { askOfficeFor } from "../../data/ask";
import { useWords } from "../../i18n/use_words";
import { entriesOfJob } from "../../office/entries";
import { stepsOf } from "../../office/life";
import { useItemNames } from "../../data/item_names";
import type { AuditAnswer, DepartureRow, EntryRow } from "../../office/shapes";
import { useOffice } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { JobPapers } from "./job_papers";
import { LifeStep } from "./life_step";

interface Life {
  job: Job & { zone?: string };
  entries: EntryRow[];
  departures: DepartureRow[];
}

async function askLife(job: string): Promise<Life> {
  const [shown, entries, audit] = await Promise.all([askOfficeFor("showJob", { path: { job } }), entriesOfJob(job), askOfficeFor("audit", { query: { job, limit: "0" } })]);
  return { job: shown, entries, departures: (audit as unknown as AuditAnswer).departures };
}

function Line({ life }: { life: Life }) {
  const { t, tn } = useWords();
  const nameOf = useItemNames();
  const { job, entries, departures } = life;
  const at = (seqs: number[]) => departures.filter((one) => one.entries.some((seq) => seqs.includes(seq)));
  const shownHere = new Set(at(entries.map((entry) => entry.seq)));
  const itemWords = new Map(job.items.map((one) => [one.item, one.words] as const));
  const elsewhere = departures.filter((one) => !shownHere.has(one));
  return (
    <>
      <div class="state-line"><StateMark state={job.state} /><span>{nameOf(job.product)}, {job.technician}</span></div>
      <p>{departures.length === 0 ? t("life.noDepartures") : tn("departures.count", departures.length)}. {t("life.zone", { zone: job.zone ?? "UTC" })}</p>
      {elsewhere.length > 0 && <ul>{elsewhere.map((one, n) => <li key={n}><Said text={one.what} /></li>)}</ul>}
      <ol class="life">
        {stepsOf(entries).map((step) => (
          <LifeStep key={step.entries[0]?.seq} step={step} zone={job.zone ?? "UTC"} itemWords={itemWords} departures={at(step.entries.map((entry) => entry.seq))} />
        ))}
      </ol>
      <section>
        <h2>{t("papers.ofJob")}</h2>
        <JobPapers job={job.job} zone={job.zone ?? "UTC"} />
      </section>
    </>
  );
}

/** One job from plan to close, as the record has it. */
export default function LifeView({ names }: { names: Names }) {
  const { t } = useWords();
  const job = names.job ?? "";
  return (
    <AuditPage title={t("job.title", { job })} back="/audit/jobs">
      <Waiting of={useOffice(() => askLife(job), [job])}>{(life) => <Line life={life} />}</Waiting>
    </AuditPage>
  );
}
