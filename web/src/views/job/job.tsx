// SPDX-License-Identifier: Apache-2.0
import type { ComponentType } from "preact";
import type { Job } from "../../api/generated";
import { FaultNote } from "../../components/fault_note";
import { LinkButton } from "../../components/link_button";
import { Loading } from "../../components/loading";
import { Page } from "../../components/page";
import { StateMark } from "../../components/state_mark";
import { useItemNames } from "../../data/item_names";
import { useAsk } from "../../data/use_ask";
import { holds } from "../../driveway/shapes";
import { useWords } from "../../i18n/use_words";
import type { Names } from "../../route/routes";
import { FogStage } from "../fog/fog_stage";
import { useFogTimer, type Fog } from "../fog/use_fog_timer";
import { HoldStage } from "../hold/hold_stage";
import { CloseStage } from "./close_stage";
import { DoneStage } from "./done_stage";
import { PlanFacts } from "./plan_facts";
import { StartStage } from "./start_stage";
import { StopJob } from "./stop_job";

export type Stage = ComponentType<{ job: Job; again: () => void; fog: Fog }>;

function stageOf(job: Job): Stage {
  if (job.state === "planned" || job.state === "cleared") return StartStage;
  if (job.state === "fogging") return FogStage;
  if (holds(job)) return HoldStage;
  return job.state === "released" ? CloseStage : DoneStage;
}

/** A job: what is to be done next stands first, the plan below it. */
export function JobView({ names }: { names: Names }) {
  const { t } = useWords();
  const { answer: job, fault, again } = useAsk("showJob", { path: { job: names.job ?? "" } }, 15_000);
  const name = useItemNames();
  // Here and not in a stage: what is timed outlasts a job that is given up from elsewhere.
  const fog = useFogTimer(names.job ?? "");
  if (!job)
    return (
      <Page title={names.job ?? ""} back="/">
        {fault ? <FaultNote fault={fault} /> : <Loading />}
      </Page>
    );
  const Shown = stageOf(job);
  const stoppable = job.state === "planned" || job.state === "cleared" || job.state === "fogging";
  return (
    <Page title={t("job.title", { job: job.job })} back="/">
      <p class="state-line">
        <StateMark state={job.state} />
        <span>{name(job.product)}, {job.technician}</span>
      </p>
      <FaultNote fault={fault} />
      <Shown job={job} again={again} fog={fog} />
      <PlanFacts job={job} />
      {stoppable && <StopJob job={job} fog={fog} />}
      {stoppable && job.state !== "fogging" && <LinkButton wide href={`/jobs/${encodeURIComponent(job.job)}/afterwards`}>{t("afterwards.open")}</LinkButton>}
    </Page>
  );
}
