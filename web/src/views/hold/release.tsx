// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import type { Job } from "../../api/generated";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { Notice } from "../../components/notice";
import { releaseOnDevice, releaseWithPassword } from "../../data/release";
import { desk } from "../../data/engines";
import { session } from "../../data/session";
import { syncState } from "../../data/sync";
import { useWords } from "../../i18n/use_words";
import { useObservable } from "../../observable";

/**
 * Online the office checks the password again. Without a signal nobody can check it here, and the page does not pretend
 * to: whoever releases writes their name, and the record says that it was this device that let them.
 */
export function Release({ job, onDone }: { job: Job; onDone: () => void }) {
  const { t } = useWords();
  const { who, state } = useObservable(session);
  const { now } = useObservable(syncState);
  const local = useObservable(desk);
  const [secret, setSecret] = useState("");
  const [fault, setFault] = useState<unknown>();
  const online = state === "in" && now !== "no-signal";
  const may = job.hold?.may_release ?? false;
  const handle = who?.handle ?? "";
  const ready = may && (online ? secret !== "" : secret.trim() === handle && local !== null);

  const release = async () => {
    setFault(undefined);
    const done = online ? releaseWithPassword(job.job, secret) : releaseOnDevice(job.job);
    await done.then(onDone, setFault);
    setSecret("");
  };

  return (
    <section>
      <h2>{t("release.title")}</h2>
      {!may && <p>{t("release.notYet")}</p>}
      {may && <Notice tone="hold" title={t("release.who", { handle })}><p>{t("release.look")}</p></Notice>}
      {may && (online
        ? <Field label={t("release.password")} type="password" value={secret} onValue={setSecret} autocomplete="current-password" />
        : (
          <>
            <Notice tone="hold" title={t("release.offline")}><p>{t("release.offlineWhy")}</p></Notice>
            <Field label={t("release.handle", { handle })} value={secret} onValue={setSecret} />
          </>
        ))}
      <FaultNote fault={fault} items={job.items} />
      <Button kind="main" wide disabled={!ready} onPress={release}>{t("release.button")}</Button>
    </section>
  );
}
