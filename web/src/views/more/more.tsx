// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { Choice } from "../../components/choice";
import { FaultNote } from "../../components/fault_note";
import { LinkButton } from "../../components/link_button";
import { Notice } from "../../components/notice";
import { Page } from "../../components/page";
import { outboxCount } from "../../data/outbox";
import { session, signOut } from "../../data/session";
import { useWords } from "../../i18n/use_words";
import { useObservable } from "../../observable";
import { placesOf } from "../../route/navigation";
import type { Names } from "../../route/routes";
import { languages, prefer, preferences, themes, unitSystems } from "../../settings/preferences";

const languageNames = { en: "English", es: "Español" };

function Preferences() {
  const { t, word } = useWords();
  const now = useObservable(preferences);
  return (
    <>
      <Choice label={t("more.language")} value={now.language} onValue={(language) => prefer({ language })} options={languages.map((value) => ({ value, words: languageNames[value] }))} />
      <Choice label={t("more.units")} value={now.units} onValue={(units) => prefer({ units })} options={unitSystems.map((value) => ({ value, words: word("units", value) }))} />
      <Choice label={t("more.theme")} value={now.theme} onValue={(theme) => prefer({ theme })} options={themes.map((value) => ({ value, words: word("theme", value) }))} />
      <div class="picks">
        <Button icon="sound" pressed={now.sound} onPress={() => prefer({ sound: !now.sound })}>{t("more.sound")}</Button>
        <Button icon="sound" pressed={now.voice} onPress={() => prefer({ voice: !now.voice })}>{t("more.voice")}</Button>
      </div>
    </>
  );
}

function Leave() {
  const { t, tn } = useWords();
  const { waiting, refused } = useObservable(outboxCount);
  const [fault, setFault] = useState<unknown>();
  const unsent = waiting + refused;
  return (
    <section>
      {/* Signing out with entries that nobody else has would lose sight of them. */}
      {unsent > 0 && <Notice tone="hold" title={tn("more.unsent", unsent)}><p>{t("more.unsentWhy")}</p></Notice>}
      <FaultNote fault={fault} />
      <Button wide disabled={unsent > 0} onPress={() => signOut().catch(setFault)}>{t("more.signOut")}</Button>
    </section>
  );
}

export function MoreView(_: { names: Names }) {
  const { t, word } = useWords();
  const { who } = useObservable(session);
  return (
    <Page title={t("nav.more")}>
      <section>
        <p>{t("more.signedInAs", { handle: who?.handle ?? "", roles: (who?.roles ?? []).map((role) => word("role", role)).join(", ") })}</p>
        <div class="actions">
          <LinkButton href="/outbox" icon="waiting">{t("outbox.title")}</LinkButton>
          {placesOf(who?.roles ?? []).filter((place) => place.desk).map((place) => <LinkButton key={place.path} href={place.path} icon={place.icon}>{t(place.words)}</LinkButton>)}
        </div>
      </section>
      <section>
        <h2>{t("more.preferences")}</h2>
        <Preferences />
      </section>
      <Leave />
      <p class="fine">{t("common.labelOutranks")}</p>
    </Page>
  );
}
