// SPDX-License-Identifier: Apache-2.0
import type { ComponentChildren } from "preact";
import { useWords } from "../../i18n/use_words";
import { Page } from "../page";
import { Sections, type Section } from "./sections";

const officeSections: Section[] = [
  { path: "/office", words: "office.due" },
  { path: "/office/shelf", words: "shelf.title" },
  { path: "/office/receive", words: "receive.title" },
  { path: "/office/order", words: "order.title" },
  { path: "/office/trends", words: "trends.title" },
  { path: "/office/costs", words: "costs.title" },
  { path: "/office/crew", words: "crew.title" },
  { path: "/office/labels", words: "labels.title" },
  { path: "/office/gear", words: "gear.title" },
  { path: "/office/places", words: "places.title" },
];

const auditSections: Section[] = [
  { path: "/audit", words: "departures.title" },
  { path: "/audit/jobs", words: "life.jobs" },
  { path: "/audit/record", words: "record.title" },
  { path: "/audit/papers", words: "papers.title" },
  { path: "/audit/keep", words: "keep.title" },
];

interface Props {
  title: string;
  back?: string;
  children: ComponentChildren;
}

export function OfficePage({ title, back, children }: Props) {
  const { t } = useWords();
  return (
    <Page title={title} broad {...(back ? { back } : {})} before={<Sections label={t("nav.office")} sections={officeSections} below={back !== undefined} />}>
      {children}
    </Page>
  );
}

export function AuditPage({ title, back, children }: Props) {
  const { t } = useWords();
  return (
    <Page title={title} broad {...(back ? { back } : {})} before={<Sections label={t("nav.audit")} sections={auditSections} below={back !== undefined} />}>
      {children}
      <p class="fine">{t("audit.shows")} {t("common.labelOutranks")}</p>
    </Page>
  );
}
