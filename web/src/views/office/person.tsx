// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import type { Person } from "../../api/generated";
import { Notice } from "../../components/notice";
import { FoldOut } from "../../components/office/fold_out";
import { OfficePage } from "../../components/office/office_page";
import { Waiting } from "../../components/office/waiting";
import { WriteForm } from "../../components/office/write_form";
import { askOfficeFor } from "../../data/ask";
import { hasRole } from "../../data/session";
import { useWords } from "../../i18n/use_words";
import type { Credential } from "../../office/shapes";
import { useOffice } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { AddCredential } from "./add_credential";
import { CredentialTable } from "./credential_table";
import { OneTimeLink } from "./one_time_link";
import { roleOptions } from "./role_options";

function Owners({ person }: { person: Person }) {
  const { t, word } = useWords();
  const path = { handle: person.handle };
  return (
    <>
      <FoldOut title={t("crew.invite")}>
        <p>{t("crew.inviteHow")}</p>
        <OneTimeLink id="invite" handle={person.handle} button="crew.inviteButton" />
      </FoldOut>
      <FoldOut title={t("crew.otherRoles")}>
        <WriteForm id="changeRoles" path={path} button="stock.write" fields={[
          { name: "roles", label: "crew.roles", kind: "words", needed: true, options: roleOptions(word) },
          { name: "why", label: "stop.why", needed: true },
        ]} />
      </FoldOut>
      <FoldOut title={t("crew.leaves")}>
        <WriteForm id="retirePerson" path={path} grave button="crew.leavesButton" fields={[{ name: "why", label: "stop.why", needed: true }]} />
      </FoldOut>
    </>
  );
}

/** One of the crew. */
export default function PersonView({ names }: { names: Names }) {
  const { t, word } = useWords();
  const handle = names.handle ?? "";
  const [withdrawing, setWithdrawing] = useState<Credential>();
  const keeps = hasRole("owner") || hasRole("safety-officer");
  return (
    <OfficePage title={handle} back="/office/crew">
      <Waiting of={useOffice(() => askOfficeFor("showPerson", { path: { handle } }), [handle])}>
        {(person) => (
          <>
            <p>{person.roles.map((role) => word("role", role)).join(", ")}</p>
            {!person.active && <Notice tone="hold" title={t("crew.left")} />}
            <CredentialTable credentials={person.credentials as unknown as Credential[]} {...(keeps ? { onWithdraw: setWithdrawing } : {})} />
            {withdrawing && (
              <section>
                <h2>{t("credential.withdraw", { what: word("credential", withdrawing.what) })}</h2>
                <WriteForm key={withdrawing.entry} id="withdrawCredential" path={{ credential: withdrawing.entry }} grave button="credential.withdrawButton"
                  fields={[{ name: "why", label: "stop.why", needed: true }]} onDone={() => setWithdrawing(undefined)} />
              </section>
            )}
            {person.active && keeps && <AddCredential handle={handle} />}
            {person.active && hasRole("owner") && <Owners person={person} />}
            <p><a class="inline" href="/audit/keep">{t("keep.title")}</a></p>
          </>
        )}
      </Waiting>
    </OfficePage>
  );
}
