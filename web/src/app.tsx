// SPDX-License-Identifier: Apache-2.0
import { useEffect, useState } from "preact/hooks";
import { FaultNote } from "./components/fault_note";
import { Page } from "./components/page";
import { Shell } from "./components/shell";
import { session } from "./data/session";
import { useWords } from "./i18n/use_words";
import { useObservable } from "./observable";
import { address, match } from "./route/router";
import { routes, type Names, type Route, type View } from "./route/routes";
import { SignInView } from "./views/sign_in/sign_in";

function find(path: string): { route: Route; names: Names } | null {
  for (const route of routes) {
    const names = match(route.path, path);
    if (names) return { route, names };
  }
  return null;
}

/** A view whose code comes when it is opened. */
function Loaded({ load, names }: { load: () => Promise<{ default: View }>; names: Names }) {
  const [state, setState] = useState<{ view?: View; fault?: unknown }>({});
  useEffect(() => {
    load().then((module) => setState({ view: module.default }), (fault: unknown) => setState({ fault }));
  }, [load]);
  const { view: Shown, fault } = state;
  if (fault) return <main class="page"><FaultNote fault={fault} /></main>;
  return Shown ? <Shown names={names} /> : <main class="page" aria-busy="true" />;
}

export function App() {
  const { t } = useWords();
  const path = useObservable(address);
  const { state, who } = useObservable(session);
  const found = find(path);
  const body = () => {
    if (!found) return <Page title={t("fault.nothingHere")} back="/"><p>{t("fault.nothingHereHint")}</p></Page>;
    const { route, names } = found;
    if (!who && !route.open) return state === "checking" ? <main class="page" aria-busy="true" /> : <SignInView names={names} />;
    // The address is the view's identity: another job begins with fresh fields.
    return route.view ? <route.view key={path} names={names} /> : route.load && <Loaded key={path} load={route.load} names={names} />;
  };
  return <Shell>{body()}</Shell>;
}
