// SPDX-License-Identifier: Apache-2.0
import { render } from "preact";
import { App } from "./app";
import { watchLabels } from "./data/labels";
import { startData } from "./data/start";
import { loadLanguage } from "./i18n";
import { watchAddress } from "./route/router";
import { applyPreferences, preferences } from "./settings/preferences";

async function start(): Promise<void> {
  preferences.watch((now) => {
    applyPreferences(now);
    void loadLanguage(now.language);
  });
  // Words first: a page that changes its language under the reader's eyes helps nobody.
  await loadLanguage(preferences.value.language).catch(() => undefined);
  watchAddress();
  const root = document.getElementById("app");
  if (!root) throw new Error("the document has no place for the app");
  root.replaceChildren();
  render(<App />, root);
  await startData();
  watchLabels();
}

void start();
