// SPDX-License-Identifier: Apache-2.0
import { useEffect, useRef, useState } from "preact/hooks";
import type { Job } from "../../api/generated";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { Notice } from "../../components/notice";
import { marksPassed, timeText } from "../../driveway/fog_timer";
import { shownName } from "../../driveway/return_names";
import { foggedMs } from "../../driveway/shapes";
import { signal, wakeSound } from "../../driveway/signals";
import { useWakeLock } from "../../driveway/wake_lock";
import { useWords } from "../../i18n/use_words";
import { Ring } from "./ring";
import type { Chosen } from "./return_list";
import type { Fog } from "./use_fog_timer";

export function ReturnTimer({ job, chosen, fog, onRecorded }: { job: Job; chosen: Chosen; fog: Fog; onRecorded: () => void }) {
  const { t } = useWords();
  const { system, planned } = chosen;
  const [fault, setFault] = useState<unknown>();
  const before = foggedMs(job, system, planned.name);
  const total = before + (fog.timer?.elapsed_ms ?? 0);
  const held = useWakeLock(fog.timer !== null);

  const told = useRef(total);
  useEffect(() => {
    for (const mark of marksPassed(told.current, total, planned)) signal(mark, t(`fog.mark.${mark}`, { name: shownName(planned.name) }));
    told.current = total;
  }, [total]);

  const record = async () => {
    setFault(undefined);
    await fog.record().then(onRecorded, setFault);
  };

  return (
    <article class="timer">
      <h2>{shownName(planned.name)} <small>{shownName(system)}</small></h2>
      <Ring totalMs={total} planned={planned} open={fog.timer?.open ?? false} />
      {fog.timer && !held && <p class="fine">{t("fog.keepScreenOn")}</p>}
      {fog.timer && fog.timer.unseen_ms > 0 && <Notice tone="hold" title={t("fog.unseen", { time: timeText(fog.timer.unseen_ms) })} live />}
      <FaultNote fault={fault} />
      <div class="actions thumb">
        {!fog.timer && <Button kind="main" wide onPress={() => (wakeSound(), fog.start(system, planned.name))}>{before > 0 ? t("fog.valveOpenAgain") : t("fog.valveOpen")}</Button>}
        {fog.timer?.open && <Button onPress={() => void fog.pause()}>{t("fog.pause")}</Button>}
        {fog.timer && !fog.timer.open && <Button onPress={() => (wakeSound(), fog.goOn())}>{t("fog.goOn")}</Button>}
        {fog.timer && <Button kind="main" icon="check" onPress={record}>{t("fog.done")}</Button>}
      </div>
    </article>
  );
}
