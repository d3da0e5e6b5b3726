// SPDX-License-Identifier: Apache-2.0
/// A chart for the terminal.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "paper/scale.hpp"
#include "paper/text.hpp"

namespace fogwright::paper {
namespace {

struct Signs {
  std::vector<std::string_view> fill;  ///< a column's top, from nearly empty to full
  std::string_view level, mark, dot, flag, axis, floor, corner;
};
const Signs blocks{{"▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"}, "─", "│", "●", "◆", "┤", "─", "└"};
const Signs letters_only{{"#"}, "-", "|", "o", "!", "|", "-", "+"};

std::string padded(std::string_view text, std::size_t width) {
  return std::string(width - std::min(width, letters(text)), ' ') + std::string(first_letters(text, width));
}

/// Cells of the plot, top row first.
struct Grid {
  int width, height;
  const Signs& signs;
  std::vector<std::string_view> cells;
  Grid(int columns, int rows, const Signs& with)
      : width(columns), height(rows), signs(with), cells(static_cast<std::size_t>(columns * rows), " ") {}

  std::string_view& cell(int column, int row) { return cells[static_cast<std::size_t>(row * width + column)]; }
  [[nodiscard]] int column(double share) const {
    return std::clamp(static_cast<int>(share * (width - 1) + 0.5), 0, width - 1);
  }
  [[nodiscard]] int row(double share) const {
    return std::clamp(height - 1 - static_cast<int>(share * height), 0, height - 1);
  }
  /// A column filled from the floor up to a share of the height.
  void fill(int column, double share) {
    const auto steps = static_cast<int>(signs.fill.size());
    const int parts = static_cast<int>(std::ceil(std::clamp(share, 0.0, 1.0) * height * steps - 1e-9));
    for (int row = 0; row * steps < parts; ++row)
      cell(column, height - 1 - row) =
          signs.fill[static_cast<std::size_t>(std::min(parts - row * steps, steps) - 1)];
  }
};

/// Where a series stands at x: between two points on the line, on a step at the one before; nullopt outside.
std::optional<double> value_at(const ChartSeries& series, double x) {
  const ChartPoint* before = nullptr;
  for (const auto& point : series.points) {
    if (!drawable(point)) continue;
    if (point.x >= x) {
      if (point.x == x) return point.y;
      if (before == nullptr) return std::nullopt;
      if (series.look == Look::steps) return before->y;
      return before->y + (point.y - before->y) * (x - before->x) / (point.x - before->x);
    }
    before = &point;
  }
  return std::nullopt;
}

/// The highest value inside a column's width, so that no peak falls between two columns.
std::optional<double> highest_in(const ChartSeries& series, double from, double middle, double to) {
  auto highest = value_at(series, middle);
  for (const auto& point : series.points)
    if (drawable(point) && point.x >= from && point.x < to)
      highest = std::max(highest.value_or(point.y), point.y);
  return highest;
}

void put_filled(Grid& grid, const ChartSeries& series, const Scale& x, const Scale& y) {
  const double step = (x.high - x.low) / (grid.width - 1);
  for (int column = 0; column < grid.width; ++column) {
    const double middle = x.low + column * step;
    if (const auto value = highest_in(series, middle - step / 2, middle, middle + step / 2))
      grid.fill(column, y.at(*value));
  }
}

void put_line_of_dots(Grid& grid, const ChartSeries& series, const Scale& x, const Scale& y) {
  for (int column = 0; column < grid.width; column += 2) {
    const double middle = x.low + column * (x.high - x.low) / (grid.width - 1);
    if (const auto value = value_at(series, middle)) grid.cell(column, grid.row(y.at(*value))) = grid.signs.dot;
  }
}

void put_points(Grid& grid, const std::vector<ChartPoint>& points, std::string_view sign, const Scale& x,
                const Scale& y) {
  for (const auto& point : points)
    if (drawable(point)) grid.cell(grid.column(x.at(point.x)), grid.row(y.at(point.y))) = sign;
}

/// Levels cross what is filled, so that it shows how far above them it stands; points stay.
void put_levels_and_marks(Grid& grid, const Chart& chart, const Scale& x, const Scale& y) {
  for (const auto& level : chart.levels)
    for (int column = 0; std::isfinite(level.y) && column < grid.width; ++column)
      if (auto& cell = grid.cell(column, grid.row(y.at(level.y)));
          cell == " " || cell == grid.signs.fill.back())
        cell = grid.signs.level;
  for (const auto& mark : chart.marks)
    for (int row = 0; std::isfinite(mark.x) && row < grid.height; ++row)
      grid.cell(grid.column(x.at(mark.x)), row) = grid.signs.mark;
}

/// The first line or step is filled; others over it are dotted.
void put_series(Grid& grid, const Chart& chart, const Scale& x, const Scale& y) {
  bool filled = false;
  for (const auto& series : chart.series) {
    if (series.look == Look::dots) {
      put_points(grid, series.points, grid.signs.dot, x, y);
    } else if (filled) {
      put_line_of_dots(grid, series, x, y);
    } else {
      put_filled(grid, series, x, y);
      filled = true;
    }
  }
}

std::string x_axis(const Chart& chart, const Scale& x, const Signs& signs, std::size_t margin, int width) {
  std::string line(margin + 1, ' ');
  line += signs.corner;
  for (int i = 0; i < width; ++i) line += signs.floor;
  const std::string first = chart.x_ticks.empty() ? short_number(x.low) : chart.x_ticks.front().label;
  const std::string last = chart.x_ticks.empty() ? short_number(x.high) : chart.x_ticks.back().label;
  const std::size_t room =
      static_cast<std::size_t>(width) > letters(first) ? static_cast<std::size_t>(width) - letters(first) : 0;
  return line + "\n" + std::string(margin + 2, ' ') + first + padded(last, std::max(room, letters(last) + 1)) +
         "\n";
}

/// Broken at blanks, inside a word only where it is wider than the line.
std::string wrapped(const std::string& text, std::size_t width, const std::string& indent) {
  std::string out, rest = clean(text);
  while (letters(rest) > width) {
    const std::string line(first_letters(rest, width + 1));
    const auto blank = line.rfind(' ');
    const std::size_t cut = blank != std::string::npos && blank > 0 ? blank : first_letters(rest, width).size();
    out += rest.substr(0, cut) + "\n" + indent;
    rest.erase(0, blank == cut ? cut + 1 : cut);
  }
  return out + rest + "\n";
}

/// What the signs mean, a line each.
std::string key_of(const Chart& chart, const Signs& signs, std::size_t width) {
  std::string key;
  bool filled = false;
  const auto add = [&](std::string_view sign, const std::string& name) {
    key += fmt::format("  {} {}", sign, wrapped(name, width - 4, "    "));
  };
  for (const auto& series : chart.series) {
    const bool dotted = series.look == Look::dots || filled;
    add(dotted ? signs.dot : signs.fill.back(), series.name);
    filled = filled || !dotted;
  }
  if (!chart.flagged.empty()) add(signs.flag, chart.flag_name);
  for (const auto& level : chart.levels) add(signs.level, level.name + ": " + short_number(level.y));
  for (const auto& mark : chart.marks) add(signs.mark, mark.name + ": " + short_number(mark.x));
  return key;
}

std::string plot_text(const Chart& chart, const TextChartStyle& style, const Signs& signs) {
  const Scale x = x_scale(chart), y = y_scale(chart);
  const int height = std::max(style.height, 4);
  const auto margin = std::max(letters(short_number(y.low)), letters(short_number(y.high)));
  const int width = std::max(style.width, 32) - static_cast<int>(margin) - 2;
  Grid grid(width, height, signs);
  put_series(grid, chart, x, y);
  put_levels_and_marks(grid, chart, x, y);
  put_points(grid, chart.flagged, signs.flag, x, y);
  std::string out;
  for (int row = 0; row < height; ++row) {
    const bool top = row == 0, bottom = row == height - 1;
    out += padded(top ? short_number(y.high) : bottom ? short_number(y.low) : "", margin) + " ";
    out += signs.axis;
    for (int column = 0; column < width; ++column) out += grid.cell(column, row);
    out.erase(out.find_last_not_of(' ') + 1);
    out += '\n';
  }
  return out + x_axis(chart, x, signs, margin, width) +
         key_of(chart, signs, static_cast<std::size_t>(std::max(style.width, 32)));
}

/// A bar a line: name, bar, value.
std::string bars_text(const Chart& chart, const TextChartStyle& style, const Signs& signs) {
  std::size_t names = 0, values = 0;
  double most = 0;
  for (const auto& bar : chart.bars) {
    names = std::max(names, std::min<std::size_t>(letters(bar.label), 16));
    values = std::max(values, letters(short_number(bar.value)));
    most = std::max(most, bar.value);
  }
  const auto room = static_cast<double>(std::max(style.width, 32)) - static_cast<double>(names + values) - 4;
  std::string out;
  for (const auto& bar : chart.bars) {
    out += "  " + padded(bar.label, names) + " ";
    const auto cells = most > 0 ? static_cast<int>(std::ceil(bar.value / most * room - 1e-9)) : 0;
    for (int i = 0; i < cells; ++i) out += signs.fill.back();
    out += (cells > 0 ? " " : "") + short_number(bar.value) + "\n";
  }
  return out;
}

}  // namespace

std::string chart_text(const Chart& chart, const TextChartStyle& style) {
  const Signs& signs = style.ascii ? letters_only : blocks;
  const auto width = static_cast<std::size_t>(std::max(style.width, 32));
  std::string out = wrapped(chart.title, width, "") + wrapped(chart.y_title, width, "");
  out += chart.bars.empty() ? plot_text(chart, style, signs) : bars_text(chart, style, signs);
  return out;
}

}  // namespace fogwright::paper
