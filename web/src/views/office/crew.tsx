// SPDX-License-Identifier: Apache-2.0
import type { Person } from "../../api/generated";
import { Badge } from "../../components/office/badge";
import { FoldOut } from "../../components/office/fold_out";
import { OfficePage } from "../../components/office/office_page";
import { Table } from "../../components/office/table";
import { Waiting } from "../../components/office/waiting";
import { WriteForm } from "../../components/office/write_form";
import { clock } from "../../data/clock";
import { hasRole } from "../../data/session";
import { useWords } from "../../i18n/use_words";
import { newestOf, standingOf, toneOf } from "../../office/credentials";
import { isoDay } from "../../office/days";
import type { Credential } from "../../office/shapes";
import { useAll } from "../../office/use_all";
import type { Names } from "../../route/routes";
import { Devices } from "./devices";
import { roleOptions } from "./role_options";

/** The one that ends first. */
function NextLapse({ person }: { person: Person }) {
  const { t, word, language } = useWords();
  const dated = newestOf(person.credentials as unknown as Credential[]).filter((one) => one.expires);
  const next = dated.sort((a, b) => (a.expires ?? "").localeCompare(b.expires ?? ""))[0];
  if (!next) return <>{t("crew.nothingDated")}</>;
  const standing = standingOf(next, clock.now());
  return <>{word("credential", next.what)}, {isoDay(next.expires ?? "", language)} <Badge tone={toneOf[standing]}>{word("standing", standing)}</Badge></>;
}

function CrewTable({ crew }: { crew: Person[] }) {
  const { t, word } = useWords();
  return (
    <Table
      caption={t("crew.caption")}
      empty={t("crew.none")}
      rows={crew}
      keyOf={(one) => one.handle}
      columns={[
        { head: t("crew.handle"), cell: (one) => <a class="inline" href={`/office/crew/${encodeURIComponent(one.handle)}`}>{one.handle}</a> },
        { head: t("crew.roles"), cell: (one) => one.roles.map((role) => word("role", role)).join(", ") },
        { head: t("crew.credentials"), figure: true, cell: (one) => newestOf(one.credentials as unknown as Credential[]).length },
        { head: t("crew.next"), cell: (one) => <NextLapse person={one} /> },
      ]}
    />
  );
}

/** Who works here, and what of theirs lapses when. */
export default function CrewView(_: { names: Names }) {
  const { t, word } = useWords();
  return (
    <OfficePage title={t("crew.title")}>
      <Waiting of={useAll("listCrew")}>{(crew) => <CrewTable crew={crew} />}</Waiting>
      {hasRole("owner") && (
        <FoldOut title={t("crew.enrol")}>
          <WriteForm
            id="enrol"
            button="crew.enrolButton"
            fields={[
              { name: "handle", label: "crew.handle", hint: "crew.handleHint", needed: true },
              { name: "roles", label: "crew.roles", kind: "words", needed: true, options: roleOptions(word) },
              { name: "name", label: "crew.name", hint: "plan.erasable" },
              { name: "contact", label: "crew.contact", hint: "plan.erasable" },
            ]}
          />
        </FoldOut>
      )}
      <Devices />
    </OfficePage>
  );
}
