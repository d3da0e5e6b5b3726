// SPDX-License-Identifier: Apache-2.0
import { useRef, useState } from "preact/hooks";
import { Button } from "../../components/button";
import { Choice } from "../../components/choice";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { LinkButton } from "../../components/link_button";
import { Notice } from "../../components/notice";
import { ask, largestPage } from "../../data/ask";
import { useAsk } from "../../data/use_ask";
import { useSettled } from "../../data/use_settled";
import { emptyMix, isMixed, partsOf, type MixDraft, type MixingSheet } from "../../driveway/mix_draft";
import { useWords } from "../../i18n/use_words";
import { timeFormat } from "../../settings/formats";
import { typedUnit, volume, withUnit } from "../../settings/units";
import { MixLine } from "./mix_line";

interface Batch {
  batch: string;
  usable_until_ms: number;
}

function Done({ done, byLabel, back }: { done: Batch; byLabel: boolean; back: string }) {
  const { t, language } = useWords();
  const until = timeFormat(language, { dateStyle: "medium", timeStyle: "short" }).format(done.usable_until_ms);
  return (
    <>
      <Notice tone="done" title={t("mix.done", { batch: done.batch })} live><p>{t(byLabel ? "mix.until" : "mix.untilByPolicy", { time: until })}</p></Notice>
      <LinkButton kind="main" wide href={back === "/stock" ? `/stock/${encodeURIComponent(done.batch)}` : back}>{back === "/stock" ? t("receive.look", { id: done.batch }) : t("gate.goOn")}</LinkButton>
    </>
  );
}

export function MixForm({ product, make, place, back }: { product: string; make: string; place: string; back: string }) {
  const { t, units, language } = useWords();
  const unit = typedUnit[units].volume;
  const [draft, setDraft] = useState<MixDraft>(() => emptyMix(make.endsWith(` ${unit}`) ? make.slice(0, -unit.length - 1) : make, place));
  const [done, setDone] = useState<Batch>();
  const [fault, setFault] = useState<unknown>();
  const change = (part: Partial<MixDraft>) => setDraft((before) => ({ ...before, ...part }));
  const wanted = useSettled(draft.make.trim());
  const { answer, fault: unread } = useAsk("showMixing", { path: { product }, query: { ...(wanted ? { make: withUnit(wanted, unit) } : {}), ...(draft.table ? { table: draft.table } : {}) } });
  const vessels = useAsk("listVessels", { query: { limit: largestPage } }).answer?.items ?? [];
  const places = useAsk("listPlaces").answer?.items ?? [];
  // The list stays in sight while the next one is reckoned.
  const last = useRef<MixingSheet>();
  if (answer) last.current = answer;
  const sheet = answer ?? last.current;
  const upToDate = answer !== undefined && wanted === draft.make.trim();

  const write = async () => {
    if (!sheet) return;
    setFault(undefined);
    const body = {
      product, make: withUnit(draft.make, unit), parts: partsOf(draft, sheet, unit), place: draft.place, respirator_worn: draft.respirator === "yes",
      ...(draft.table ? { table: draft.table } : {}), ...(draft.reason.trim() ? { reason: draft.reason.trim() } : {}),
    };
    await ask("mixBatch", { body }).then(({ entries }) => setDone(entries.map((entry) => entry.body as unknown as Batch).find((one) => one.batch)), setFault);
  };

  if (done) return <Done done={done} byLabel={sheet?.life_minutes !== undefined} back={back} />;
  return (
    <form class="form" onSubmit={(event) => event.preventDefault()}>
      {sheet && sheet.tables.length > 1 && <Choice label={t("mix.table")} value={draft.table} onValue={(table) => change({ table, taken: {} })} options={sheet.tables.map((name) => ({ value: name, words: name }))} />}
      <Field label={t("mix.make")} value={draft.make} onValue={(text) => change({ make: text })} keys="decimal" unit={unit} required />
      <FaultNote fault={unread} />
      {sheet && !unread && (
        <>
          {(sheet.respirator || sheet.gear.length > 0) && (
            <Notice tone="hold" title={t("mix.wear")}>
              <ul>
                {sheet.respirator && <li><strong>{t("mix.respiratorFirst")}</strong></li>}
                {sheet.gear.map((one) => <li key={one} lang="en" class="label-words">{one}</li>)}
              </ul>
            </Notice>
          )}
          {sheet.cautions.length > 0 && <details><summary>{t("mix.cautions")}</summary><ul lang="en" class="label-words">{sheet.cautions.map((one) => <li key={one}>{one}</li>)}</ul></details>}
          {sheet.lines.length > 0 && <p>{t("mix.makes", { volume: volume(sheet.makes_ml * 1000, units, "down", language) })}</p>}
          {sheet.batches > 1 && <p>{t("mix.batches", { n: sheet.batches })}</p>}
          <ol class="measure">
            {sheet.lines.map((line) => <MixLine key={line.ingredient} line={line} sheet={sheet} product={product} vessels={vessels} draft={draft} onDraft={setDraft} />)}
          </ol>
          <Choice label={t("mix.respirator")} value={draft.respirator} onValue={(respirator) => change({ respirator })} options={[{ value: "yes", words: t("common.yes") }, { value: "no", words: t("common.no") }]} />
          {draft.respirator === "no" && sheet.respirator && <Notice tone="danger" title={t("mix.notWorn")} live />}
          <Choice label={t("mix.place")} value={draft.place} onValue={(where) => change({ place: where })} options={places.map((one) => ({ value: one.place, words: one.place }))} />
          <Field label={t("member.reason")} value={draft.reason} onValue={(reason) => change({ reason })} />
          <p class="fine">{t("common.labelOutranks")}</p>
        </>
      )}
      <FaultNote fault={fault} />
      <Button kind="main" wide disabled={!sheet || !upToDate || !isMixed(draft, sheet)} onPress={write}>{t("mix.record")}</Button>
    </form>
  );
}
