// SPDX-License-Identifier: Apache-2.0
import { Basis } from "../../components/basis";
import { Table } from "../../components/office/table";
import { Said } from "../../components/said";
import { useWords } from "../../i18n/use_words";
import { day } from "../../office/days";
import type { KeptRecord } from "../../office/shapes";

/** Kinds of record, and what the book holds of each. */
export function KeptTable({ records }: { records: KeptRecord[] }) {
  const { t, word, language } = useWords();
  return (
    <Table
      caption={t("keep.caption")}
      empty={t("keep.nothing")}
      rows={records}
      keyOf={(one) => one.id}
      columns={[
        { head: t("keep.what"), cell: (one) => <>{word("kept", one.id)}{one.remark && <small> <Said text={one.remark} /></small>}</> },
        { head: t("keep.howLong"), cell: (one) => word("keepFor", one.keep) },
        { head: t("departures.basis"), cell: (one) => <Basis kind={one.kind} citation={one.citation} /> },
        { head: t("keep.held"), figure: true, cell: (one) => one.count },
        { head: t("keep.span"), cell: (one) => (one.oldest_ms === null || one.newest_ms === null ? "–" : t("keep.range", { from: day(one.oldest_ms, language), to: day(one.newest_ms, language) })) },
        { head: t("keep.next"), cell: (one) => (one.next_over_ms === null ? "–" : day(one.next_over_ms, language)) },
      ]}
    />
  );
}
