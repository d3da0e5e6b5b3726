// SPDX-License-Identifier: Apache-2.0
// What stands around every view: name, state of the outbox, emergency, navigation.
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { session } from "../data/session";
import { useWords } from "../i18n/use_words";
import { useObservable } from "../observable";
import { address } from "../route/router";
import { placesOf } from "../route/navigation";
import { EmergencyCard } from "../views/emergency/emergency_card";
import { Icon } from "./icon";
import { Banners } from "./banners";
import { SyncChip } from "./sync_chip";

function Navigation() {
  const { t } = useWords();
  const at = useObservable(address);
  const { who } = useObservable(session);
  const places = placesOf(who?.roles ?? []);
  return (
    <nav class="places" aria-label={t("nav.label")}>
      {places.map((place) => {
        const here = place.path === "/" ? at === "/" || at.startsWith("/jobs") : at.startsWith(place.path);
        return (
          <a key={place.path} href={place.path} class={place.desk ? "desk" : ""} aria-current={here ? "page" : undefined}>
            <Icon name={place.icon} />
            <span>{t(place.words)}</span>
          </a>
        );
      })}
    </nav>
  );
}

export function Shell({ children }: { children: ComponentChildren }) {
  const { t } = useWords();
  const [emergency, setEmergency] = useState(false);
  const { who } = useObservable(session);
  return (
    <div class="shell">
      <a class="skip" href="#content">{t("nav.skip")}</a>
      <header class="top">
        <a class="name" href="/">Fogwright</a>
        {who && <SyncChip />}
        <button type="button" class="emergency" onClick={() => setEmergency(true)}>
          <Icon name="emergency" />
          <span>{t("emergency.button")}</span>
        </button>
      </header>
      {who && <Navigation />}
      <div class="view">
        <Banners />
        {children}
      </div>
      {emergency && <EmergencyCard onClose={() => setEmergency(false)} />}
    </div>
  );
}
