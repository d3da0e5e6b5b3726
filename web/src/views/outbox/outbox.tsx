// SPDX-License-Identifier: Apache-2.0
import { useEffect, useState } from "preact/hooks";
import { Button } from "../../components/button";
import { Notice } from "../../components/notice";
import { Page } from "../../components/page";
import { Said } from "../../components/said";
import type { OutboxRow } from "../../data/database";
import { forgetRefused, outboxCount, outboxRows } from "../../data/outbox";
import { syncSoon } from "../../data/start";
import { syncState } from "../../data/sync";
import { useWords } from "../../i18n/use_words";
import { useObservable } from "../../observable";
import type { Names } from "../../route/routes";
import { timeFormat } from "../../settings/formats";

function Row({ row }: { row: OutboxRow }) {
  const { t, word, language } = useWords();
  const { entry, state, reply } = row;
  const time = timeFormat(language, { dateStyle: "short", timeStyle: "short" }).format(entry.happened_ms);
  const job = typeof entry.body.job === "string" ? entry.body.job : "";
  return (
    <li class={`row ${state}`}>
      <p>
        <strong>{word("entry", entry.kind)}</strong> {job} <span class="fine">{time}, {entry.actor}</span>
      </p>
      <p>{t(`outbox.${state}`)}</p>
      {state === "refused" && (
        <>
          <p><Said text={reply?.detail} />{reply?.hint && ". "}<Said text={reply?.hint} /></p>
          <Button onPress={() => forgetRefused(entry.id)}>{t("outbox.understood")}</Button>
        </>
      )}
      {reply?.departures?.map((departure) => <p key={departure.rule}><Said text={departure.what} /></p>)}
    </li>
  );
}

/** Everything this device wrote that the office does not have yet. */
export function OutboxView(_: { names: Names }) {
  const { t, language } = useWords();
  const count = useObservable(outboxCount);
  const state = useObservable(syncState);
  // Until they are read nothing is said about them: that the office has everything must be known.
  const [rows, setRows] = useState<OutboxRow[]>();
  useEffect(() => void outboxRows().then(setRows), [count, state]);
  return (
    <Page title={t("outbox.title")} back="/more" actions={<Button kind={count.waiting > 0 ? "main" : "plain"} wide onPress={syncSoon}>{t("outbox.sendNow")}</Button>}>
      {state.now === "fault" && <Notice tone="danger" title={t("sync.fault")}><p><Said text={state.words} /></p></Notice>}
      <p>
        {state.reached_ms > 0
          ? t("outbox.reached", { time: timeFormat(language, { timeStyle: "short" }).format(state.reached_ms) })
          : t("outbox.notReached")}
      </p>
      {rows?.length === 0 && <p class="empty">{t("outbox.empty")}</p>}
      <ul class="rows">{rows?.map((row) => <Row key={row.entry.id} row={row} />)}</ul>
    </Page>
  );
}
