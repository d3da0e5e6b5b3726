// SPDX-License-Identifier: Apache-2.0
import { Basis } from "../../components/basis";
import { Table } from "../../components/office/table";
import { Said } from "../../components/said";
import { useWords } from "../../i18n/use_words";
import { day } from "../../office/days";
import type { HeldRecord } from "../../office/shapes";

/** Of one job or person: what may not go yet, and by which rule. */
export function HeldTable({ records }: { records: HeldRecord[] }) {
  const { t, word, language } = useWords();
  return (
    <Table
      caption={t("keep.ofOne")}
      empty={t("keep.nothing")}
      rows={records.map((one, at) => ({ ...one, at }))}
      keyOf={(one) => String(one.at)}
      columns={[
        { head: t("keep.what"), cell: (one) => <>{word("kept", one.rule.id)} <small><Said text={one.what} /></small></> },
        { head: t("keep.until"), cell: (one) => (one.until_ms === null ? t("keep.noEnd") : day(one.until_ms, language)) },
        { head: t("keep.howLong"), cell: (one) => word("keepFor", one.rule.keep) },
        { head: t("departures.basis"), cell: (one) => <Basis kind={one.rule.kind} citation={one.rule.citation} /> },
      ]}
    />
  );
}
