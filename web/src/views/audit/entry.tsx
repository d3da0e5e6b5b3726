// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { Notice } from "../../components/notice";
import { AuditPage } from "../../components/office/office_page";
import { FoldOut } from "../../components/office/fold_out";
import { SaveText } from "../../components/office/save_text";
import { Waiting } from "../../components/office/waiting";
import { WriteForm } from "../../components/office/write_form";
import { askOfficeFor } from "../../data/ask";
import { useWords } from "../../i18n/use_words";
import { moment } from "../../office/days";
import { elapsed } from "../../office/elapsed";
import { entryAt, jobOf } from "../../office/entries";
import type { EntryRow } from "../../office/shapes";
import { useOffice } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { EntryLinks } from "./entry_links";

function Proof({ entry }: { entry: EntryRow }) {
  const { t } = useWords();
  const [proof, setProof] = useState("");
  const [fault, setFault] = useState<unknown>();
  const make = () => askOfficeFor("proveEntry", { path: { entry: entry.id } }).then((answer) => (setFault(undefined), setProof(answer.proof)), setFault);
  return (
    <section>
      <h2>{t("proof.title")}</h2>
      <p>{t("proof.what")}</p>
      <FaultNote fault={fault} />
      {proof ? <SaveText text={proof} name={`entry-${entry.seq}.tlog-proof`} /> : <Button icon="check" onPress={make}>{t("proof.make")}</Button>}
      <p class="fine">{t("proof.how")}</p>
    </section>
  );
}

/** The number of the entry that this one puts right, as it tells it. */
const correctedSeq = (entry: EntryRow): number | undefined => (entry.body as { corrected?: { seq?: number } }).corrected?.seq;

/** Nothing is edited: what is right is an entry of its own. */
function Correct({ entry }: { entry: EntryRow }) {
  const { t } = useWords();
  return (
    <FoldOut title={t("correct.title")}>
      <p>{t("correct.what")}</p>
      <WriteForm
        id="correctEntry"
        path={{ entry: entry.id }}
        fields={[{ name: "text", label: "correct.text", needed: true }, { name: "why", label: "stop.why", needed: true }]}
        button="correct.write"
      />
    </FoldOut>
  );
}

function Shown({ entry }: { entry: EntryRow }) {
  const { t, word, language } = useWords();
  const job = jobOf(entry);
  const corrected = correctedSeq(entry);
  const later = entry.received_ms - entry.happened_ms;
  return (
    <>
      <dl class="facts">
        <dt>{t("entry.kind")}</dt><dd>{word("entry", entry.kind)}</dd>
        <dt>{t("entry.happened")}</dt><dd>{moment(entry.happened_ms, language)}</dd>
        <dt>{t("entry.received")}</dt><dd>{moment(entry.received_ms, language)}{later !== 0 && ` (${t("life.after", { time: elapsed(later) })})`}</dd>
        <dt>{t("entry.who")}</dt><dd>{entry.actor}, {entry.device}</dd>
        {job && <><dt>{t("papers.job")}</dt><dd><a class="inline" href={`/audit/jobs/${encodeURIComponent(job)}`}>{job}</a></dd></>}
        <dt>{t("entry.id")}</dt><dd class="code">{entry.id}</dd>
        {entry.corrects && <><dt>{t("entry.corrects")}</dt><dd>{corrected === undefined ? <span class="code">{entry.corrects}</span> : <EntryLinks seqs={[corrected]} />}</dd></>}
        {entry.reason && <><dt>{t("stop.why")}</dt><dd>{entry.reason}</dd></>}
        {entry.corrected_by && <><dt>{t("entry.correctedBy")}</dt><dd><EntryLinks seqs={entry.corrected_by} /></dd></>}
      </dl>
      <h2>{t("entry.body")}</h2>
      <pre class="code" tabIndex={0} lang="en">{JSON.stringify(entry.body, null, 2)}</pre>
    </>
  );
}

/** One entry, and the proof that it is in the book. */
export default function EntryView({ names }: { names: Names }) {
  const { t } = useWords();
  const seq = Number(names.seq);
  const found = useOffice(async () => ({ entry: Number.isInteger(seq) && seq >= 0 ? await entryAt(seq) : undefined }), [seq]);
  return (
    <AuditPage title={t("entry.title", { n: names.seq ?? "" })} back="/audit">
      <Waiting of={found}>
        {({ entry }) => (entry ? <><Shown entry={entry} /><Correct entry={entry} /><Proof entry={entry} /></> : <Notice tone="hold" title={t("entry.none")} />)}
      </Waiting>
      {seq > 0 && <p class="state-line"><a class="inline" href={`/audit/entries/${seq - 1}`}>{t("entry.before")}</a><a class="inline" href={`/audit/entries/${seq + 1}`}>{t("entry.after")}</a></p>}
    </AuditPage>
  );
}
