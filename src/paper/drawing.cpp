// SPDX-License-Identifier: Apache-2.0
#include "paper/drawing.hpp"

#include <algorithm>

#include "paper/plot.hpp"
#include "paper/text.hpp"

namespace fogwright::paper {
namespace {

constexpr double small = 7.5;

/// Room at the left for the widest number, at most a third of the drawing.
double room_for_numbers(const Plot& plot) {
  double widest = 0;
  for (const double value : plot.y.round_values(5))
    widest = std::max(widest, guessed_width(short_number(value), small));
  return std::min(widest + 10, plot.out.width / 3);
}

void draw_y_axis(Plot& plot) {
  for (const double value : plot.y.round_values(5)) {
    const double y = plot.py(value);
    plot.out.shapes.emplace_back(Stroke{{{plot.left, y}, {plot.right, y}}, Ink::faint, 0.5, {}});
    plot.out.shapes.emplace_back(
        Words{short_number(value), {plot.left - 5, y + 2.6}, small, Anchor::end, false, Ink::grey, false});
  }
}

std::vector<ChartTick> ticks_of(const Plot& plot) {
  if (!plot.chart.x_ticks.empty()) return plot.chart.x_ticks;
  std::vector<ChartTick> ticks;
  for (const double value : plot.x.round_values(8)) ticks.push_back({value, short_number(value)});
  return ticks;
}

/// Leaves out a label that would run into the one before.
void draw_x_axis(Plot& plot) {
  double free_from = 0;
  for (const auto& tick : ticks_of(plot)) {
    const double x = plot.px(tick.x), half = guessed_width(tick.label, small) / 2;
    if (tick.x < plot.x.low || tick.x > plot.x.high) continue;
    plot.out.shapes.emplace_back(Stroke{{{x, plot.bottom}, {x, plot.bottom + 3}}, Ink::grey, 0.7, {}});
    const double middle = std::clamp(x, half, plot.out.width - half);
    if (middle - half < free_from) continue;
    plot.out.shapes.emplace_back(
        Words{tick.label, {middle, plot.bottom + 12}, small, Anchor::middle, false, Ink::grey, false});
    free_from = middle + half + 5;
  }
}

void draw_titles(Plot& plot) {
  const auto& chart = plot.chart;
  plot.out.shapes.emplace_back(Words{chart.title, {0, 10}, 9.5, Anchor::start, true, Ink::black, false});
  plot.out.shapes.emplace_back(Words{chart.y_title, {0, 23}, small, Anchor::start, false, Ink::grey, false});
  plot.out.shapes.emplace_back(
      Words{chart.x_title, {plot.right, plot.bottom + 24}, small, Anchor::end, false, Ink::grey, false});
}

}  // namespace

double guessed_width(const std::string& text, double size) {
  return 0.56 * size * static_cast<double>(letters(text));
}

void draw_frame(Plot& plot) {
  draw_titles(plot);
  draw_y_axis(plot);
  if (plot.chart.bars.empty()) draw_x_axis(plot);
  const double floor = plot.y.logarithmic ? plot.bottom : plot.py(std::max(plot.y.low, 0.0));
  plot.out.shapes.emplace_back(Stroke{{{plot.left, floor}, {plot.right, floor}}, Ink::grey, 0.9, {}});
}

Drawing draw(const Chart& chart) {
  Drawing drawing;
  Plot plot{chart, drawing, x_scale(chart), y_scale(chart)};
  if (chart.x_title.empty()) drawing.height -= 12;  // its line is not needed
  plot.left = room_for_numbers(plot);
  plot.right = drawing.width - std::min(room_for_levels(chart), drawing.width / 3);
  draw_frame(plot);
  draw_bars(plot);
  draw_series(plot);
  draw_levels(plot);
  draw_marks(plot);
  return drawing;
}

std::string colour_of(Ink ink) {
  switch (ink) {
    case Ink::black:
      return "#1b1f23";
    case Ink::grey:
      return "#57606a";
    case Ink::faint:
      return "#d8dee4";
    case Ink::blue:
      return "#0b5394";
    case Ink::red:
      return "#b3261e";
  }
  return "#1b1f23";
}

}  // namespace fogwright::paper
