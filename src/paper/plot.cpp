// SPDX-License-Identifier: Apache-2.0
#include "paper/plot.hpp"

#include <algorithm>
#include <cmath>

#include "paper/text.hpp"

namespace fogwright::paper {
namespace {

constexpr double small = 7.5;

std::string level_words(const ChartLevel& level) { return level.name + ": " + short_number(level.y); }

std::vector<double> dashes_of(Look look) {
  return look == Look::dashed ? std::vector{5.0, 3.0} : std::vector<double>{};
}

/// The points to join: a step holds its value until the next one.
std::vector<ChartPoint> path_of(const Plot& plot, const ChartSeries& series) {
  std::vector<ChartPoint> path;
  for (const auto& point : series.points) {
    if (!drawable(point)) continue;
    const auto at = plot.place(point);
    if (series.look == Look::steps && !path.empty()) path.push_back({at.x, path.back().y});
    path.push_back(at);
  }
  return path;
}

void draw_one(Plot& plot, const ChartSeries& series) {
  auto path = path_of(plot, series);
  if (series.look == Look::dots)
    for (const auto& at : path) plot.out.shapes.emplace_back(Dot{at, 2.1, Ink::blue, false});
  const double width = series.look == Look::dots ? 0.6 : 1.5;
  if (path.size() > 1)
    plot.out.shapes.emplace_back(Stroke{std::move(path), Ink::blue, width, dashes_of(series.look)});
}

/// A sample of the line and its name, side by side above the plot; nothing where there is one series only.
void draw_legend(Plot& plot) {
  if (plot.chart.series.size() < 2) return;
  double x = plot.out.width;
  for (auto series = plot.chart.series.rbegin(); series != plot.chart.series.rend(); ++series) {
    x -= guessed_width(series->name, small);
    plot.out.shapes.emplace_back(Words{series->name, {x, 23}, small, Anchor::start, false, Ink::black, false});
    plot.out.shapes.emplace_back(
        Stroke{{{x - 26, 20.5}, {x - 4, 20.5}}, Ink::blue, 1.5, dashes_of(series->look)});
    x -= 40;
  }
}

}  // namespace

double room_for_levels(const Chart& chart) {
  double widest = 8;
  for (const auto& level : chart.levels)
    widest = std::max(widest, guessed_width(level_words(level), small) + 4);
  return widest;
}

void draw_series(Plot& plot) {
  for (const auto& series : plot.chart.series) draw_one(plot, series);
  for (const auto& point : plot.chart.flagged)
    if (drawable(point)) plot.out.shapes.emplace_back(Dot{plot.place(point), 4.6, Ink::red, true});
  draw_legend(plot);
}

/// Names stand at the right of the plot, where no curve runs, pushed apart where lines lie close.
void draw_levels(Plot& plot) {
  auto levels = plot.chart.levels;
  std::sort(levels.begin(), levels.end(), [](const auto& a, const auto& b) { return a.y > b.y; });
  double free_from = 0;
  for (const auto& level : levels) {
    if (!std::isfinite(level.y)) continue;
    const double y = plot.py(level.y), words = std::max(y + 2.6, free_from);
    plot.out.shapes.emplace_back(Stroke{{{plot.left, y}, {plot.right, y}}, Ink::red, 0.9, {2, 2}});
    plot.out.shapes.emplace_back(
        Words{level_words(level), {plot.right + 4, words}, small, Anchor::start, false, Ink::red, false});
    free_from = words + 9;
  }
}

void draw_marks(Plot& plot) {
  double y = plot.top + 8;
  for (const auto& mark : plot.chart.marks) {
    if (!std::isfinite(mark.x)) continue;
    const double x = plot.px(mark.x);
    const bool room_at_right = x + 4 + guessed_width(mark.name, small) < plot.right;
    plot.out.shapes.emplace_back(Stroke{{{x, plot.top}, {x, plot.bottom}}, Ink::black, 1.1, {6, 2, 1, 2}});
    plot.out.shapes.emplace_back(Words{mark.name,
                                       {room_at_right ? x + 4 : x - 4, y},
                                       small,
                                       room_at_right ? Anchor::start : Anchor::end,
                                       true,
                                       Ink::black,
                                       true});
    y += 10;
  }
}

void draw_bars(Plot& plot) {
  const auto& bars = plot.chart.bars;
  const double slot = (plot.right - plot.left) / static_cast<double>(std::max<std::size_t>(bars.size(), 1));
  double middle = plot.left + slot / 2, free_from = 0;
  for (const auto& bar : bars) {
    const double value = std::isfinite(bar.value) ? std::max(bar.value, 0.0) : 0, top = plot.py(value);
    const double half = guessed_width(bar.label, small) / 2, thick = std::min(0.62 * slot, 40.0);
    plot.out.shapes.emplace_back(Box{middle - thick / 2, top, thick, plot.bottom - top, Ink::blue});
    plot.out.shapes.emplace_back(
        Words{short_number(value), {middle, top - 3}, small, Anchor::middle, true, Ink::black, false});
    if (middle - half >= free_from) {
      plot.out.shapes.emplace_back(
          Words{bar.label, {middle, plot.bottom + 12}, small, Anchor::middle, false, Ink::grey, false});
      free_from = middle + half + 4;
    }
    middle += slot;
  }
}

}  // namespace fogwright::paper
