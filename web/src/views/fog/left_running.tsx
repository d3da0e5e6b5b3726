// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { Notice } from "../../components/notice";
import { timeText } from "../../driveway/fog_timer";
import { shownName } from "../../driveway/return_names";
import { useWords } from "../../i18n/use_words";
import type { Fog } from "./use_fog_timer";

/** The fog was ended, or the job given up, from elsewhere while this phone timed a return: that is fog, too, and the valve may be open still. */
export function LeftRunning({ fog, onRecorded }: { fog: Fog; onRecorded: () => void }) {
  const { t } = useWords();
  const [fault, setFault] = useState<unknown>();
  const record = async () => {
    setFault(undefined);
    await fog.record().then(onRecorded, setFault);
  };
  if (!fog.timer) return null;
  const { name, elapsed_ms, unseen_ms, open } = fog.timer;
  return (
    <section>
      <Notice tone={open ? "danger" : "hold"} title={open ? t("fog.leftOpen") : t("fog.left")} live><p>{t("fog.leftHow")}</p></Notice>
      {/* Beside what is read out: it changes all the time. */}
      <p class="amount figures">{shownName(name)}: {timeText(elapsed_ms)}</p>
      {unseen_ms > 0 && <p>{t("fog.unseen", { time: timeText(unseen_ms) })}</p>}
      <FaultNote fault={fault} />
      {fault !== undefined && <p>{t("fog.leftRefused")}</p>}
      <Button kind="main" icon="check" wide onPress={record}>{t("fog.done")}</Button>
    </section>
  );
}
