// SPDX-License-Identifier: Apache-2.0
// Where the code that another device of one's own shows signs this one in. Its token stands behind the # and so reaches no log.
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { Page } from "../../components/page";
import { joinByLink } from "../../data/session";
import { useWords } from "../../i18n/use_words";
import { go } from "../../route/router";
import { prefer, preferences } from "../../settings/preferences";

export const deviceMark = "device-";

export function JoinDevice({ token }: { token: string }) {
  const { t } = useWords();
  const [device, setDevice] = useState(preferences.value.device);
  const [fault, setFault] = useState<unknown>();
  const join = async () => {
    setFault(undefined);
    await joinByLink(token, device.trim()).then(() => {
      prefer({ device: device.trim() });
      go("/", "replace");
    }, setFault);
  };
  return (
    <Page title={t("join.title")}>
      <form class="form" onSubmit={(event) => (event.preventDefault(), void join())}>
        <p>{t("join.how")}</p>
        <Field label={t("signIn.device")} value={device} onValue={setDevice} hint={t("signIn.deviceHint")} maxLength={64} required />
        <FaultNote fault={fault} />
        <div class="actions thumb">
          <Button kind="main" type="submit" wide disabled={!device.trim()}>{t("join.button")}</Button>
        </div>
      </form>
    </Page>
  );
}
