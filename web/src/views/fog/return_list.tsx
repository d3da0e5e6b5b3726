// SPDX-License-Identifier: Apache-2.0
import type { Job } from "../../api/generated";
import { foggedMs, type PlannedReturn } from "../../driveway/shapes";
import { timeText, type FogTimer } from "../../driveway/fog_timer";
import { shownName } from "../../driveway/return_names";
import { Icon } from "../../components/icon";
import { useWords } from "../../i18n/use_words";

export interface Chosen {
  system: string;
  planned: PlannedReturn;
}

/** All returns and how far each is. Another one can be chosen while none is timed. */
export function ReturnList({ job, all, chosen, timer, onChoose }: { job: Job; all: Chosen[]; chosen: Chosen | undefined; timer: FogTimer | null; onChoose: (one: Chosen) => void }) {
  const { t } = useWords();
  return (
    <ul class="returns" aria-label={t("fog.returns")}>
      {all.map((one) => {
        const timed = timer && one === chosen ? timer.elapsed_ms : 0;
        const fogged = foggedMs(job, one.system, one.planned.name) + timed;
        const done = fogged >= one.planned.band_s[0] * 1000;
        return (
          <li key={`${one.system}/${one.planned.name}`}>
            <button type="button" class="return" disabled={timer !== null} aria-current={one === chosen ? "step" : undefined} onClick={() => onChoose(one)}>
              <Icon name={done ? "check" : "clock"} />
              <span>{shownName(one.planned.name)}</span>
              <span class="figures">{timeText(fogged)} / {one.planned.seconds} s</span>
            </button>
          </li>
        );
      })}
    </ul>
  );
}
