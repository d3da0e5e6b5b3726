// SPDX-License-Identifier: Apache-2.0
import { useState } from "preact/hooks";
import { Button } from "../../components/button";
import { FaultNote } from "../../components/fault_note";
import { FoldOut } from "../../components/office/fold_out";
import { Table } from "../../components/office/table";
import { Waiting } from "../../components/office/waiting";
import { askOfficeFor } from "../../data/ask";
import { tellChange } from "../../data/tabs";
import { useWords } from "../../i18n/use_words";
import { minuteOf } from "../../office/days";
import { useOffice } from "../../office/use_all";
import { OneTimeLink } from "./one_time_link";

/** Who is signed in where; a phone that was lost is signed out here. */
export function Devices() {
  const { t, language } = useWords();
  const sessions = useOffice(() => askOfficeFor("listSessions"));
  const [fault, setFault] = useState<unknown>();
  const end = (session: string) => askOfficeFor("endSession", { path: { session } }).then(tellChange, setFault);
  return (
    <section>
      <h2>{t("devices.title")}</h2>
      <FaultNote fault={fault} />
      <Waiting of={sessions}>
        {({ items }) => (
          <Table
            caption={t("devices.caption")}
            empty={t("devices.none")}
            rows={items}
            keyOf={(one) => one.session}
            columns={[
              { head: t("devices.device"), cell: (one) => one.device },
              { head: t("crew.handle"), cell: (one) => one.handle },
              { head: t("devices.since"), cell: (one) => minuteOf(one.created_ms, language) },
              { head: t("devices.seen"), cell: (one) => minuteOf(one.seen_ms, language) },
              { head: t("devices.end"), cell: (one) => <Button onPress={() => end(one.session)}>{t("devices.endButton")}</Button> },
            ]}
          />
        )}
      </Waiting>
      <FoldOut title={t("devices.link")}>
        <p>{t("devices.linkHow")}</p>
        <OneTimeLink id="linkDevice" button="devices.linkButton" />
      </FoldOut>
    </section>
  );
}
