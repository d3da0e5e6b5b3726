// SPDX-License-Identifier: Apache-2.0
// A planned job that was done without the tool: what happened, when, and what was met. The desk holds it to the same
// rules, and lists every departure.
import { useState } from "preact/hooks";
import type { Job } from "../../api/generated";
import { Button } from "../../components/button";
import { Choice } from "../../components/choice";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { LinkButton } from "../../components/link_button";
import { Loading } from "../../components/loading";
import { Notice } from "../../components/notice";
import { Page } from "../../components/page";
import { ask } from "../../data/ask";
import { useAsk } from "../../data/use_ask";
import { answerable, emptyAfterwards, isMetBefore, isTold, recordOf, returnNames, type Afterwards } from "../../driveway/afterwards";
import type { Item } from "../../driveway/gate_queue";
import { itemWords } from "../../driveway/item_words";
import { shownName } from "../../driveway/return_names";
import { useWords } from "../../i18n/use_words";
import type { Names } from "../../route/routes";
import { typedUnit } from "../../settings/units";
import { EvidenceField, takesPlainYes } from "../gate/evidence_field";

interface Part {
  job: Job;
  draft: Afterwards;
  change: (part: Partial<Afterwards>) => void;
}

function Answer({ item, job, draft, change }: Part & { item: Item }) {
  const { t, language } = useWords();
  const said = itemWords(item, language);
  const value = draft.answers[item.item] ?? "";
  const before = isMetBefore(job, item);
  const set = (answer: string) => change({ answers: { ...draft.answers, [item.item]: answer } });
  if (takesPlainYes(item))
    return <Choice label={said.words} value={value} onValue={set} options={[{ value: "yes", words: t("common.yes") }, { value: "", words: before ? t("afterwards.asBefore") : t("afterwards.notKnown") }]} />;
  return (
    <section>
      <h3 lang={said.language}>{said.words}</h3>
      {before && <p class="fine">{t("afterwards.metBefore")}</p>}
      <EvidenceField job={job} item={item} value={value} onValue={set} />
    </section>
  );
}

function Times({ job, draft, change }: Part) {
  const { t } = useWords();
  const moments = ["started", "ended", "released"] as const;
  return (
    <>
      {moments.map((name) => (
        <Field key={name} type="datetime-local" label={t(`afterwards.${name}`)} hint={t("afterwards.zone", { zone: job.zone ?? "" })} value={draft[name]} onValue={(value) => change({ [name]: value })} required={name !== "released"} />
      ))}
    </>
  );
}

function Form({ job }: { job: Job }) {
  const { t, units } = useWords();
  const [draft, setDraft] = useState(emptyAfterwards);
  const [fault, setFault] = useState<unknown>();
  const unit = typedUnit[units].volume;
  const change = (part: Partial<Afterwards>) => setDraft((before) => ({ ...before, ...part }));
  const part = { job, draft, change };
  const write = async () => {
    setFault(undefined);
    await ask("recordJob", { path: { job: job.job }, body: recordOf(job, draft, unit) }).catch(setFault);
  };
  return (
    <form class="form" onSubmit={(event) => event.preventDefault()}>
      <Times {...part} />
      {returnNames(job).map((name) => (
        <Field key={name} label={t("afterwards.seconds", { name: name.split(": ").map(shownName).join(": ") })} value={draft.seconds[name] ?? ""} onValue={(seconds) => change({ seconds: { ...draft.seconds, [name]: seconds } })} keys="decimal" unit="s" />
      ))}
      <Field label={t("afterwards.used")} value={draft.used} onValue={(used) => change({ used })} keys="decimal" unit={unit} />
      <h2>{t("afterwards.met")}</h2>
      <p>{t("afterwards.metHow")}</p>
      {answerable(job, draft).map((item) => <Answer key={item.item} item={item} {...part} />)}
      <Field label={t("afterwards.why")} value={draft.why} onValue={(why) => change({ why })} required />
      <FaultNote fault={fault} />
      <Button kind="main" wide disabled={!isTold(draft)} onPress={write}>{t("afterwards.record")}</Button>
    </form>
  );
}

export default function AfterwardsView({ names }: { names: Names }) {
  const { t } = useWords();
  const id = names.job ?? "";
  const back = `/jobs/${encodeURIComponent(id)}`;
  const { answer: job, fault } = useAsk("showJob", { path: { job: id } });
  const open = job?.state === "planned" || job?.state === "cleared";
  return (
    <Page title={t("afterwards.title", { job: id })} back={back}>
      {!job && !fault && <Loading />}
      <FaultNote fault={fault} />
      {job && open && (
        <>
          <Notice tone="hold"><p>{t("afterwards.departure")}</p></Notice>
          <Form job={job} />
        </>
      )}
      {job && !open && (
        <>
          <Notice tone="done" title={t("afterwards.done", { job: id })} live><p>{t("afterwards.next")}</p></Notice>
          <LinkButton kind="main" wide href={back}>{t("gate.goOn")}</LinkButton>
        </>
      )}
    </Page>
  );
}
