// SPDX-License-Identifier: Apache-2.0
import { useEffect, useRef, useState } from "preact/hooks";
import { FaultNote } from "../../components/fault_note";
import { LinkButton } from "../../components/link_button";
import { Notice } from "../../components/notice";
import { Loading } from "../../components/loading";
import { Page } from "../../components/page";
import { useAsk } from "../../data/use_ask";
import { countItems, nobodyIn, openItems } from "../../driveway/gate_queue";
import { useWords } from "../../i18n/use_words";
import type { Names } from "../../route/routes";
import { ItemCard } from "./item_card";
import { LapseItems } from "./lapse_items";

/** One item at a time. What is left open comes again after the others. */
export function GateView({ names }: { names: Names }) {
  const { t } = useWords();
  const id = names.job ?? "";
  const { answer: job, fault, again } = useAsk("showJob", { path: { job: id } }, 15_000);
  const [later, setLater] = useState<string[]>([]);
  const back = `/jobs/${encodeURIComponent(id)}`;
  const open = job ? openItems(job) : [];
  // The card stays under the finger when the hold opens others.
  const shown = useRef<string>();
  const waits = open.filter(({ item }) => !later.includes(item.item));
  const now = waits.find(({ item }) => item.item === shown.current) ?? waits[0] ?? open[0];
  shown.current = now?.item.item;
  const counted = job ? countItems(job) : { open: 0, all: 0 };
  useEffect(() => scrollTo(0, 0), [now?.item.item]);
  return (
    <Page title={t("gate.titleOf", { job: id })} back={back}>
      {!job && !fault && <Loading />}
      <FaultNote fault={fault} />
      {job && <p aria-live="polite">{t("gate.progress", { done: counted.all - counted.open, all: counted.all })}</p>}
      {job && <progress max={counted.all} value={counted.all - counted.open} aria-hidden="true" />}
      {job && nobodyIn(job) && <p>{t("hold.itemsLater")}</p>}
      {job && now && (
        <ItemCard
          key={now.item.item}
          job={job}
          open={now}
          onMet={() => (setLater((before) => before.filter((one) => one !== now.item.item)), again())}
          onLater={() => setLater((before) => [...before.filter((one) => one !== now.item.item), now.item.item])}
        />
      )}
      {job && !now && (
        <>
          {job.hold?.may_release === false ? !nobodyIn(job) && <p>{t("gate.restLater")}</p> : <Notice tone="done" title={t("gate.allMet")} live />}
          <LinkButton kind="main" href={back}>{t("gate.goOn")}</LinkButton>
        </>
      )}
      {job && (job.state === "planned" || job.state === "cleared") && <LapseItems job={job} onDone={again} />}
    </Page>
  );
}
