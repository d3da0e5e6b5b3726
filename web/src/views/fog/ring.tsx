// SPDX-License-Identifier: Apache-2.0
import type { PlannedReturn } from "../../driveway/shapes";
import { useWords } from "../../i18n/use_words";

const radius = 88;
const around = 2 * Math.PI * radius;

/** Where on the ring a share of the whole lies. */
function tick(share: number, length: number): string {
  const angle = share * 2 * Math.PI - Math.PI / 2;
  const at = (r: number) => `${100 + r * Math.cos(angle)} ${100 + r * Math.sin(angle)}`;
  return `M${at(radius - length)}L${at(radius + length)}`;
}

/** The ring is full at the high mark; the figure and the words say the same without it. */
export function Ring({ totalMs, planned, open }: { totalMs: number; planned: PlannedReturn; open: boolean }) {
  const { t } = useWords();
  const seconds = Math.floor(totalMs / 1000);
  const [low, high] = planned.band_s;
  const share = Math.min(1, totalMs / 1000 / high);
  const phase = seconds < low ? "under" : seconds < planned.seconds ? "band" : seconds < high ? "target" : "over";
  return (
    <div class={`ring ${phase}`}>
      <p class="phase" role="status">{open ? t(`fog.phase.${phase}`) : totalMs > 0 ? t("fog.paused") : t("fog.notYet")}</p>
      <div class="dial">
        <svg viewBox="0 0 200 200" aria-hidden="true">
          <circle class="track" cx="100" cy="100" r={radius} />
          <circle class="run" cx="100" cy="100" r={radius} stroke-dasharray={`${share * around} ${around}`} transform="rotate(-90 100 100)" />
          <path class="at" d={tick(low / high, 9) + tick(planned.seconds / high, 14)} />
        </svg>
        <div class="inside">
          <span class="big figures">{seconds}<small> s</small></span>
          <span>{t("fog.of", { target: planned.seconds })}</span>
          <span class="fine">{t("fog.band", { low, high })}</span>
        </div>
      </div>
    </div>
  );
}
