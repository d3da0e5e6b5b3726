// SPDX-License-Identifier: Apache-2.0
import { outboxCount } from "../data/outbox";
import { session } from "../data/session";
import { syncState } from "../data/sync";
import { useWords } from "../i18n/use_words";
import { useObservable } from "../observable";
import { Icon, type IconName } from "./icon";

/** Always in sight: whether the office has everything. */
export function SyncChip() {
  const { t, tn } = useWords();
  const { waiting, refused } = useObservable(outboxCount);
  const { now } = useObservable(syncState);
  const { state } = useObservable(session);

  const of = (): [IconName, string, string] => {
    if (refused > 0) return ["warn", tn("sync.refused", refused), "danger"];
    const wait = waiting > 0 ? tn("sync.waiting", waiting) : "";
    if (state === "expired" || now === "signed-out") return ["warn", wait ? `${t("sync.signedOut")}, ${wait}` : t("sync.signedOut"), "hold"];
    if (now === "no-signal" || state === "unreached") return ["nosignal", wait ? `${t("sync.noSignal")}, ${wait}` : t("sync.noSignal"), "hold"];
    if (now === "fault") return ["warn", t("sync.fault"), "danger"];
    return wait ? ["waiting", wait, "hold"] : ["sent", t("sync.allSent"), "done"];
  };
  const [icon, words, tone] = of();
  return (
    <a class={`chip ${tone}`} href="/outbox" aria-label={`${t("outbox.title")}: ${words}`}>
      <Icon name={icon} />
      <span>{words}</span>
    </a>
  );
}
