// SPDX-License-Identifier: Apache-2.0
// A line over time, with lines across it. What it shows stands in a table below as well, for whoever does not see it.
import { useEffect, useRef } from "preact/hooks";
import uPlot from "uplot";
import { useWords } from "../../i18n/use_words";
import { useObservable } from "../../observable";
import { timeFormat } from "../../settings/formats";
import { preferences } from "../../settings/preferences";
import { number } from "../../settings/units";

export interface ChartLine {
  label: string;
  values: (number | null)[];
  /** main: the data; across: a limit; mark: points that stand out. */
  look: "main" | "across" | "mark";
  stepped?: boolean;
}

const height = 260;
const daySeconds = 86_400;
const colorOf = (name: string) => getComputedStyle(document.documentElement).getPropertyValue(name).trim();

function seriesOf({ label, look, stepped }: ChartLine): uPlot.Series {
  const main = { label, stroke: colorOf("--act"), width: 2.5, points: { show: true, size: 7, fill: colorOf("--panel") } };
  if (look === "main") return stepped && uPlot.paths.stepped ? { ...main, paths: uPlot.paths.stepped({ align: 1 }) } : main;
  if (look === "across") return { label, stroke: colorOf("--ink"), width: 1.5, dash: [8, 5], points: { show: false } };
  return { label, stroke: colorOf("--danger"), width: 0, paths: () => null, points: { show: true, size: 14, width: 3, fill: "transparent" } };
}

interface Drawing {
  lines: ChartLine[];
  width: number;
  language: string;
  when: string;
  fromZero: boolean;
}

/** Round figures at the side: as many decimals as their distance needs. */
const figuresOf = (language: string) => (_: uPlot, ticks: number[]) => {
  const apart = Math.abs((ticks[1] ?? 1) - (ticks[0] ?? 0)) || 1;
  return ticks.map((at) => number(at, Math.max(0, Math.ceil(-Math.log10(apart) - 1e-9) + (apart % 1 === 0 ? 0 : 1)), language));
};

/** Days, or the hours of one where the marks lie closer. */
const timesOf = (language: string) => (_: uPlot, ticks: number[]) => {
  const apart = (ticks[1] ?? Infinity) - (ticks[0] ?? 0);
  const words = timeFormat(language, apart < daySeconds ? { timeStyle: "short" } : { month: "short", day: "numeric" });
  return ticks.map((at) => words.format(at * 1000));
};

function optionsFor({ lines, width, language, when, fromZero }: Drawing): uPlot.Options {
  const axis = { stroke: colorOf("--ink"), grid: { stroke: colorOf("--hair"), width: 1 }, ticks: { stroke: colorOf("--hair"), width: 1 } };
  return {
    width, height,
    // The last time at the bottom is wider than what lies right of its mark.
    padding: [null, 32, null, null],
    cursor: { drag: { x: false, y: false } },
    // A finger has no pointer to hover with: values stand in the table.
    legend: { live: false },
    // What is on hand is seen against nothing at all, and its order point with it.
    scales: { x: { time: true }, ...(fromZero ? { y: { range: (_: uPlot, _low: number, high: number): uPlot.Range.MinMax => [0, high > 0 ? high * 1.1 : 1] } } : {}) },
    axes: [{ ...axis, space: 70, values: timesOf(language) }, { ...axis, size: 64, values: figuresOf(language) }],
    series: [{ label: when }, ...lines.map(seriesOf)],
  };
}

export function Chart({ label, timesMs, lines, fromZero = false }: { label: string; timesMs: number[]; lines: ChartLine[]; fromZero?: boolean }) {
  const place = useRef<HTMLDivElement>(null);
  const { t, language } = useWords();
  const { theme } = useObservable(preferences);
  useEffect(() => {
    const box = place.current;
    if (!box) return;
    const data = [timesMs.map((ms) => ms / 1000), ...lines.map((line) => line.values)] as uPlot.AlignedData;
    const chart = new uPlot(optionsFor({ lines, width: box.clientWidth, language, when: t("trends.when"), fromZero }), data, box);
    const watch = new ResizeObserver(() => chart.setSize({ width: box.clientWidth, height }));
    watch.observe(box);
    return () => (watch.disconnect(), chart.destroy());
  }, [JSON.stringify([timesMs, lines]), language, theme]);
  return <div ref={place} class="chart" role="img" aria-label={label} />;
}
