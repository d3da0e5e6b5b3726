// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import type { Job } from "../../api/generated";
import { Basis } from "../../components/basis";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { LinkButton } from "../../components/link_button";
import { Notice } from "../../components/notice";
import { Said } from "../../components/said";
import { ask } from "../../data/ask";
import { whileFogging, type OpenItem } from "../../driveway/gate_queue";
import { itemWords } from "../../driveway/item_words";
import { keepPhoto, type Photo } from "../../driveway/photos";
import { useWords } from "../../i18n/use_words";
import { EvidenceField, takesPlainYes } from "./evidence_field";
import { NotKept } from "./not_kept";
import { PhotoField } from "./photo_field";

/** Where a batch may still have to be mixed. */
const mixing = ["mixed-by-table", "mix-time"];

/** One item: what, why, and what shows that it is met. */
export function ItemCard({ job, open, onMet, onLater }: { job: Job; open: OpenItem; onMet: () => void; onLater: () => void }) {
  const { t, word, language } = useWords();
  const { item, why } = open;
  const said = itemWords(item, language);
  const [answer, setAnswer] = useState("");
  const [photo, setPhoto] = useState<Photo>();
  const [fault, setFault] = useState<unknown>();
  const during = item.stage === whileFogging;
  const plain = takesPlainYes(item);

  const meet = async (typed: string) => {
    setFault(undefined);
    const body = { answer: typed, ...(photo ? { photo_digest: photo.digest } : {}) };
    await ask("meetItem", { path: { job: job.job, item: item.item }, body }).then(onMet, setFault);
  };

  return (
    <article class="item" aria-labelledby="item-words">
      <p class="fine">{word("stage", item.stage ?? "")}</p>
      <h2 id="item-words" lang={said.language}>{said.words}</h2>
      <p lang={said.language}>{said.why}</p>
      <p class="fine"><Basis kind={item.basis ?? ""} citation={item.citation ?? ""} /></p>
      {why && why !== "not met yet" && <Notice tone="hold" title={t("gate.stillOpen")}><p><Said text={why} /></p></Notice>}
      {mixing.includes(item.item) && <LinkButton href={`/jobs/${encodeURIComponent(job.job)}/mix`}>{t("mix.open")}</LinkButton>}
      {!plain && <EvidenceField job={job} item={item} value={answer} onValue={setAnswer} />}
      <PhotoField photo={photo} onPicture={async (picture) => setPhoto(await keepPhoto(picture, job.job, item.item))} />
      <FaultNote fault={fault} />
      <div class="actions thumb">
        {during ? <NotKept job={job.job} item={item.item} onDone={onMet} /> : <Button onPress={onLater}>{t("gate.later")}</Button>}
        <Button kind="main" icon="check" disabled={!plain && !answer.trim()} onPress={() => meet(plain ? "yes" : answer.trim())}>
          {plain ? t("gate.yes") : t("gate.record")}
        </Button>
      </div>
    </article>
  );
}
