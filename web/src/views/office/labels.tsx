// SPDX-License-Identifier: Apache-2.0
import { Badge } from "../../components/office/badge";
import { OfficePage } from "../../components/office/office_page";
import { Table } from "../../components/office/table";
import { Waiting } from "../../components/office/waiting";
import { WriteOneOf } from "../../components/office/write_one_of";
import { LinkButton } from "../../components/link_button";
import { hasRole } from "../../data/session";
import { useWords } from "../../i18n/use_words";
import { isoDay } from "../../office/days";
import { versionsOf } from "../../office/shapes";
import { useAll } from "../../office/use_all";
import type { Names } from "../../route/routes";

/** The labels that the firm works by, and their versions. */
export default function LabelsView(_: { names: Names }) {
  const { t, tn, language } = useWords();
  const keeps = hasRole("owner") || hasRole("safety-officer");
  return (
    <OfficePage title={t("labels.title")}>
      {keeps && <p><LinkButton href="/office/labels/adopt" icon="plan">{t("adopt.title")}</LinkButton></p>}
      <Waiting of={useAll("listProducts", { all: "true" })}>
        {(products) => (
          <>
            <Table
              caption={t("labels.caption")}
              empty={t("labels.none")}
              rows={products}
              keyOf={(one) => one.product}
              columns={[
                { head: t("plan.product"), cell: (one) => <a class="inline" href={`/office/labels/compare/${encodeURIComponent(one.product)}`}>{one.name}</a> },
                { head: t("labels.registration"), cell: (one) => one.registration },
                { head: t("labels.state"), cell: (one) => (one.current ? <Badge tone="done">{t("labels.inUse")}</Badge> : <Badge tone="danger">{t("labels.noneInUse")}</Badge>) },
                { head: t("labels.dated"), cell: (one) => { const now = versionsOf(one).find((version) => version.digest === one.current); return now?.label_date ? isoDay(now.label_date, language) : "–"; } },
                { head: t("labels.versions"), cell: (one) => tn("labels.count", versionsOf(one).length) },
              ]}
            />
            {keeps && (
              <WriteOneOf
                title={t("labels.retire")}
                label={t("labels.retireWhich")}
                options={products.filter((one) => one.current).map((one) => ({ value: one.product, words: one.name }))}
                id="retireLabel"
                names="product"
                grave
                button="labels.retireButton"
                fields={[{ name: "why", label: "stop.why", needed: true }]}
              />
            )}
          </>
        )}
      </Waiting>
    </OfficePage>
  );
}
