// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { Page } from "../../components/page";
import { session, signIn } from "../../data/session";
import { useWords } from "../../i18n/use_words";
import { address, go } from "../../route/router";
import type { Names } from "../../route/routes";
import { prefer, preferences } from "../../settings/preferences";

export function SignInView(_: { names: Names }) {
  const { t } = useWords();
  const [handle, setHandle] = useState(session.value.who?.handle ?? "");
  const [password, setPassword] = useState("");
  const [device, setDevice] = useState(preferences.value.device);
  const [fault, setFault] = useState<unknown>();

  const submit = async () => {
    setFault(undefined);
    try {
      await signIn(handle.trim(), password, device.trim());
      prefer({ device: device.trim() });
      if (address.value === "/sign-in") go("/", "replace");
    } catch (refused) {
      setFault(refused);
      setPassword("");
    }
  };

  return (
    <Page title={t("signIn.title")}>
      <form class="form" onSubmit={(event) => (event.preventDefault(), void submit())}>
        <Field label={t("signIn.handle")} value={handle} onValue={setHandle} autocomplete="username" required />
        <Field label={t("signIn.password")} type="password" value={password} onValue={setPassword} autocomplete="current-password" required />
        <Field label={t("signIn.device")} value={device} onValue={setDevice} hint={t("signIn.deviceHint")} maxLength={64} />
        <FaultNote fault={fault} />
        <div class="actions">
          <Button kind="main" type="submit" wide>{t("signIn.button")}</Button>
        </div>
      </form>
    </Page>
  );
}
