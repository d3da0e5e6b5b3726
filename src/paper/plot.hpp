// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "paper/drawing.hpp"
#include "paper/scale.hpp"

namespace fogwright::paper {

/// The frame of a chart and where values stand in it.
struct Plot {
  const Chart& chart;
  Drawing& out;
  Scale x, y;
  double left = 52, right = 488, top = 36, bottom = 150;

  [[nodiscard]] double px(double value) const { return left + x.at(value) * (right - left); }
  [[nodiscard]] double py(double value) const { return bottom - y.at(value) * (bottom - top); }
  [[nodiscard]] ChartPoint place(const ChartPoint& point) const { return {px(point.x), py(point.y)}; }
};

/// The parts of draw(), in the order they are laid on each other.
void draw_frame(Plot& plot);
void draw_series(Plot& plot);
void draw_levels(Plot& plot);
void draw_marks(Plot& plot);
void draw_bars(Plot& plot);

/// At the right of the plot.
[[nodiscard]] double room_for_levels(const Chart& chart);

/// About as wide as the words print, in points.
[[nodiscard]] double guessed_width(const std::string& text, double size);

}  // namespace fogwright::paper
