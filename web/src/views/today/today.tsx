// SPDX-License-Identifier: Apache-2.0
import { FaultNote } from "../../components/fault_note";
import { LinkButton } from "../../components/link_button";
import { Loading } from "../../components/loading";
import { Page } from "../../components/page";
import { useItemNames } from "../../data/item_names";
import { session } from "../../data/session";
import { useAsk } from "../../data/use_ask";
import { useWords } from "../../i18n/use_words";
import type { Names } from "../../route/routes";
import { JobCard } from "./job_card";
import { byUrgency } from "./order";

/** What is to be done now: jobs that are running first, then one's own, then those of others. */
export function TodayView(_: { names: Names }) {
  const { t } = useWords();
  const { answer, fault } = useAsk("listJobs");
  const name = useItemNames();
  const me = session.value.who?.handle ?? "";
  const jobs = byUrgency(answer?.items ?? [], me);
  return (
    <Page title={t("today.title")} actions={<LinkButton kind="main" icon="plan" href="/plan">{t("today.planOne")}</LinkButton>}>
      {!answer && !fault && <Loading />}
      <FaultNote fault={fault} />
      {answer && jobs.length === 0 && <p class="empty">{t("today.none")}</p>}
      <ul class="cards">{jobs.map((job) => <li key={job.job}><JobCard job={job} product={name(job.product)} mine={job.technician === me} /></li>)}</ul>
    </Page>
  );
}
