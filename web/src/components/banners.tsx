// SPDX-License-Identifier: Apache-2.0
// What somebody should know wherever they are: a sign-in that ran out, a newer version, a phone that slept.
import { clock } from "../data/clock";
import { session } from "../data/session";
import { desk, deskFault } from "../data/engines";
import { useWords } from "../i18n/use_words";
import { useObservable } from "../observable";
import { minutes } from "../settings/units";
import { takeNewVersion, waitingVersion } from "../worker/register";
import { Button } from "./button";
import { LinkButton } from "./link_button";
import { Notice } from "./notice";
import { Said } from "./said";

export function Banners() {
  const { t } = useWords();
  const { state } = useObservable(session);
  const local = useObservable(desk);
  const broken = useObservable(deskFault);
  const newer = useObservable(waitingVersion);
  const asleepMs = useObservable(clock.unexplainedMs);
  return (
    <div class="banners">
      {state === "expired" && (
        <Notice tone="hold" title={t("banner.signInAgain")} live>
          {local && <p>{t("banner.signInAgainWhy")}</p>}
          <LinkButton href="/sign-in">{t("signIn.button")}</LinkButton>
        </Notice>
      )}
      {newer && (
        <Notice title={t("banner.newVersion")}>
          <p>{t("banner.newVersionWhy")}</p>
          <Button onPress={takeNewVersion}>{t("banner.takeNewVersion")}</Button>
        </Notice>
      )}
      {((state === "unreached" && !local) || broken) && (
        <Notice tone="hold" title={t("banner.noDesk")}>
          <p>{t("banner.noDeskWhy")}</p>
          {broken && <p><Said text={broken} /></p>}
        </Notice>
      )}
      {Math.abs(asleepMs) >= 60_000 && (
        <Notice tone="hold" title={t("banner.clocksApart", { time: minutes(Math.ceil(Math.abs(asleepMs) / 60_000)) })}>
          <p>{t("banner.clocksApartWhy")}</p>
        </Notice>
      )}
    </div>
  );
}
