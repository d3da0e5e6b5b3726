// SPDX-License-Identifier: Apache-2.0
// Where an invitation is redeemed. Its token stands behind the # and so reaches no log.
import { useState } from "preact/hooks";
import { Refused, send } from "../../api/http";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { Field } from "../../components/field";
import { LinkButton } from "../../components/link_button";
import { Notice } from "../../components/notice";
import { Page } from "../../components/page";
import { useWords } from "../../i18n/use_words";
import type { Names } from "../../route/routes";
import { deviceMark, JoinDevice } from "./join_device";

export function WelcomeView(_: { names: Names }) {
  const [token] = useState(location.hash.slice(1));
  return token.startsWith(deviceMark) ? <JoinDevice token={token.slice(deviceMark.length)} /> : <Invitation token={token} />;
}

function Invitation({ token }: { token: string }) {
  const { t } = useWords();
  const [handle, setHandle] = useState("");
  const [password, setPassword] = useState("");
  const [fault, setFault] = useState<unknown>();
  const [done, setDone] = useState("");

  const submit = async () => {
    setFault(undefined);
    try {
      const answer = await send({ method: "POST", path: "/api/v1/password", body: { token, handle: handle.trim(), password } });
      if (answer.status !== 200) throw new Refused(answer.status, answer.body as object);
      setDone((answer.body as { handle: string }).handle);
    } catch (refused) {
      setFault(refused);
    }
  };

  if (done)
    return (
      <Page title={t("welcome.title")}>
        <Notice tone="done" title={t("welcome.done", { handle: done })} live />
        <LinkButton kind="main" wide href="/sign-in">{t("signIn.button")}</LinkButton>
      </Page>
    );
  if (!token) return <Page title={t("welcome.title")}><Notice tone="danger"><p>{t("welcome.noToken")}</p></Notice></Page>;
  return (
    <Page title={t("welcome.title")}>
      <form class="form" onSubmit={(event) => (event.preventDefault(), void submit())}>
        <Field label={t("signIn.handle")} value={handle} onValue={setHandle} autocomplete="username" required />
        <Field label={t("welcome.password")} type="password" value={password} onValue={setPassword} autocomplete="new-password" hint={t("welcome.passwordHint")} required />
        <FaultNote fault={fault} />
        <div class="actions thumb">
          <Button kind="main" type="submit" wide>{t("welcome.button")}</Button>
        </div>
      </form>
    </Page>
  );
}
