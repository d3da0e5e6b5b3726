// SPDX-License-Identifier: Apache-2.0
import { Button } from "../../components/button";
import { Field } from "../../components/field";
import { FoldOut } from "../../components/office/fold_out";
import { Select } from "../../components/office/select";
import { askOfficeFor } from "../../data/ask";
import { useWords } from "../../i18n/use_words";
import { useObservable } from "../../observable";
import { ruleWords } from "../../office/rule_words";
import { severities, type AuditRule } from "../../office/shapes";
import { askAll, useOffice } from "../../office/use_all";
import { filters, noFilters, queryOf, type Filters } from "./filters";

const askChoices = async () => {
  const [rules, crew, products, places, jobs] = await Promise.all([
    askOfficeFor("listAuditRules"), askAll("listCrew", { all: "true" }), askAll("listProducts", { all: "true" }), askAll("listPlaces", { all: "true" }), askAll("listJobs", { all: "true" }),
  ]);
  return {
    rules: rules.rules as unknown as AuditRule[], person: crew.map((one) => one.handle), products,
    van: places.map((one) => one.place), job: jobs.sort((a, b) => b.planned_ms - a.planned_ms).map((one) => one.job),
  };
};

/** What of the record is looked at. */
export function FilterBar() {
  const { t, word, language } = useWords();
  const now = useObservable(filters);
  const choices = useOffice(askChoices).answer;
  const set = (part: Partial<Filters>) => filters.set({ ...filters.value, ...part });
  const any = { value: "", words: t("filter.any") };
  const named = (names: string[] | undefined) => [any, ...(names ?? []).map((value) => ({ value, words: value }))];
  const count = Object.keys(queryOf(now)).length;
  return (
    <FoldOut title={count === 0 ? t("filter.title") : t("filter.titleOn", { n: count })}>
      <div class="filters">
        <Select label={t("filter.severity")} value={now.severity} onValue={(severity) => set({ severity })} options={[any, ...severities.slice(0, 3).map((value) => ({ value, words: t("filter.atLeast", { severity: word("severity", value) }) }))]} />
        <Select label={t("filter.rule")} value={now.rule} onValue={(rule) => set({ rule })} options={[any, ...(choices?.rules ?? []).map((rule) => ({ value: rule.id, words: ruleWords(rule, language).words }))]} />
        <Select label={t("filter.person")} value={now.person} onValue={(person) => set({ person })} options={named(choices?.person)} />
        <Select label={t("plan.product")} value={now.product} onValue={(product) => set({ product })} options={[any, ...(choices?.products ?? []).map((one) => ({ value: one.product, words: one.name }))]} />
        <Select label={t("stock.place")} value={now.van} onValue={(van) => set({ van })} options={named(choices?.van)} />
        <Select label={t("papers.job")} value={now.job} onValue={(job) => set({ job })} options={named(choices?.job)} />
        <Field label={t("filter.from")} type="date" value={now.from} onValue={(from) => set({ from })} hint={t("filter.utc")} />
        <Field label={t("filter.to")} type="date" value={now.to} onValue={(to) => set({ to })} />
      </div>
      <Button disabled={count === 0} onPress={() => filters.set(noFilters)}>{t("filter.clear")}</Button>
    </FoldOut>
  );
}
