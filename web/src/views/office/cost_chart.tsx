// SPDX-License-Identifier: Apache-2.0
import { Chart } from "../../components/office/chart";
import { useWords } from "../../i18n/use_words";
import { money } from "../../office/money";

/** What each job's product cost, in the order of the jobs; the table below has every figure. */
export function CostChart({ jobs }: { jobs: { planned_ms: number; cents: number }[] }) {
  const { t, language } = useWords();
  if (jobs.length < 2) return null;
  const byTime = [...jobs].sort((a, b) => a.planned_ms - b.planned_ms);
  const cents = byTime.map((one) => one.cents);
  const mean = cents.reduce((sum, one) => sum + one, 0) / cents.length;
  const told = { low: money(Math.min(...cents), language), high: money(Math.max(...cents), language), mean: money(Math.round(mean), language) };
  return (
    <>
      <p>{t("costs.spread", told)}</p>
      <Chart
        label={t("costs.spread", told)}
        fromZero
        timesMs={byTime.map((one) => one.planned_ms)}
        lines={[
          { label: t("costs.ofJob"), look: "main", values: cents.map((one) => one / 100) },
          { label: t("costs.mean"), look: "across", values: cents.map(() => mean / 100) },
        ]}
      />
    </>
  );
}
