// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <variant>
#include <vector>

#include "fogwright/paper/chart.hpp"

namespace fogwright::paper {

/// What a chart is drawn from; SVG and the PDF draw the same. Units are points, y goes down.
enum class Ink { black, grey, faint, blue, red };

struct Stroke {
  std::vector<ChartPoint> points;
  Ink ink = Ink::black;
  double width = 1;
  std::vector<double> dashes;  ///< on, off; empty: solid
};
struct Box {
  double x = 0, y = 0, width = 0, height = 0;
  Ink ink = Ink::blue;
};
struct Dot {
  ChartPoint at;
  double radius = 2;
  Ink ink = Ink::blue;
  bool ring = false;
};
enum class Anchor { start, middle, end };
struct Words {
  std::string text;
  ChartPoint at;  ///< on the base line
  double size = 8;
  Anchor anchor = Anchor::start;
  bool strong = false;
  Ink ink = Ink::black;
  bool halo = false;  ///< white around the letters, where they stand over lines
};
using Shape = std::variant<Stroke, Box, Dot, Words>;

struct Drawing {
  double width = 500, height = 178;
  std::vector<Shape> shapes;
};

[[nodiscard]] Drawing draw(const Chart& chart);

/// As "#rrggbb".
[[nodiscard]] std::string colour_of(Ink ink);

}  // namespace fogwright::paper
