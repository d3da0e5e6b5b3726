// SPDX-License-Identifier: Apache-2.0
// A plan with one thumb: product, area, returns. The answer stands on top as soon as there is one.
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { Choice } from "../../components/choice";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { Page } from "../../components/page";
import { ask } from "../../data/ask";
import { session } from "../../data/session";
import { useAsk } from "../../data/use_ask";
import { emptyDraft, isReady, newReturn, siteOf, type Draft } from "../../driveway/plan_draft";
import { useWords } from "../../i18n/use_words";
import { go } from "../../route/router";
import type { Names } from "../../route/routes";
import { typedUnit } from "../../settings/units";
import { JobDetails, type Details } from "./job_details";
import { PlanResult } from "./plan_result";
import { ReturnsEditor } from "./returns_editor";
import { useLivePlan } from "./use_live_plan";

export function PlanView(_: { names: Names }) {
  const { t, units } = useWords();
  const products = useAsk("listProducts");
  const foggers = useAsk("listFoggers");
  const [draft, setDraft] = useState<Draft>(emptyDraft());
  const [details, setDetails] = useState<Details>({ zone: Intl.DateTimeFormat().resolvedOptions().timeZone, van: "", customer: "", address: "" });
  const [fault, setFault] = useState<unknown>();
  const change = (part: Partial<Draft>) => setDraft((before) => ({ ...before, ...part }));
  const known = (products.answer?.items ?? []).filter((product) => product.current);
  const fogger = (foggers.answer?.items ?? []).find((one) => one.fogger === draft.fogger);
    const live = useLivePlan(draft, units, fogger);

  const planJob = async () => {
    setFault(undefined);
    const { zone, ...given } = details;
    const optional = Object.fromEntries(Object.entries({ ...given, fogger: draft.fogger }).map(([name, value]) => [name, value.trim()]).filter(([, value]) => value));
    const body = { product: draft.product, technician: session.value.who?.handle ?? "", zone, site: siteOf(draft, units), ...optional };
    await ask("planJob", { body }).then((answer) => {
      const job = answer.entries.map((entry) => (entry.body as { job?: string }).job).find(Boolean);
      go(job ? `/jobs/${encodeURIComponent(job)}` : "/");
    }, setFault);
  };

  return (
    <Page title={t("plan.new")}>
      <PlanResult live={live} />
      <FaultNote fault={products.fault ?? fault} />
      <form class="form" onSubmit={(event) => event.preventDefault()}>
        <Choice label={t("plan.product")} value={draft.product} onValue={(value) => change({ product: value })} options={known.map((one) => ({ value: one.product, words: one.name, detail: one.registration }))} />
        <Field label={t("plan.area")} value={draft.area} onValue={(area) => change({ area })} keys="decimal" unit={typedUnit[units].area} hint={t("plan.areaHint")} required />
        <ReturnsEditor returns={draft.returns} onReturns={(returns) => change({ returns })} onAdd={() => change({ returns: [...draft.returns, newReturn(draft.returns)] })} />
        <Choice label={t("plan.fogger")} value={draft.fogger} onValue={(value) => change({ fogger: value })} options={[
          { value: "", words: t("plan.noFogger"), detail: t("plan.noFoggerDetail") },
          ...(foggers.answer?.items ?? []).filter((one) => one.active).map((one) => ({ value: one.fogger, words: one.fogger })),
        ]} />
        <JobDetails details={details} onDetails={setDetails} draft={draft} onDraft={change} />
        <Button kind="main" wide disabled={!isReady(draft)} onPress={planJob}>{t("plan.makeJob")}</Button>
      </form>
    </Page>
  );
}
