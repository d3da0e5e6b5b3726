// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Charts, where people would rather look than read. One description is drawn as SVG, in a PDF, and as text.

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "fogwright/stock.hpp"

namespace fogwright::paper {

struct ChartPoint {
  double x = 0, y = 0;
  friend bool operator==(const ChartPoint&, const ChartPoint&) = default;
};
/// How a series looks; told apart without colour.
enum class Look { line, dashed, steps, dots };
struct ChartSeries {
  std::string name;
  Look look = Look::line;
  std::vector<ChartPoint> points;  ///< in order of x
  friend bool operator==(const ChartSeries&, const ChartSeries&) = default;
};
/// A level across the chart.
struct ChartLevel {
  std::string name;
  double y = 0;
  friend bool operator==(const ChartLevel&, const ChartLevel&) = default;
};
/// A moment, from top to bottom.
struct ChartMark {
  std::string name;
  double x = 0;
  friend bool operator==(const ChartMark&, const ChartMark&) = default;
};
struct ChartTick {
  double x = 0;
  std::string label;
  friend bool operator==(const ChartTick&, const ChartTick&) = default;
};
struct ChartBar {
  std::string label;
  double value = 0;  ///< not negative
  friend bool operator==(const ChartBar&, const ChartBar&) = default;
};

/// Either series over numbers, or bars. Values are finite; others are left out.
struct Chart {
  std::string title, x_title, y_title;
  std::string summary;  ///< what it shows, in one sentence, for those who can't see it
  std::vector<ChartSeries> series;
  std::vector<ChartPoint> flagged;  ///< points with a ring around them
  std::string flag_name;            ///< what the ring means
  std::vector<ChartLevel> levels;
  std::vector<ChartMark> marks;
  std::vector<ChartTick> x_ticks;  ///< empty: round numbers
  std::vector<ChartBar> bars;
  bool log_y = false;  ///< logarithmic; what is not above zero stands at the bottom
  friend bool operator==(const Chart&, const Chart&) = default;
};

[[nodiscard]] std::string chart_svg(const Chart& chart);

struct TextChartStyle {
  int width = 80;      ///< columns; 32 at least
  int height = 12;     ///< rows of the plot; 4 at least
  bool ascii = false;  ///< for a terminal without UTF-8; words keep their letters
};
[[nodiscard]] std::string chart_text(const Chart& chart, const TextChartStyle& style);

// --- The charts of the trade. Words in the language of the paper. --------------------------------------------

enum class Language;

/// Concentration after fog-off. On a logarithmic scale where the peak is far above the lowest limit, which
/// could not be seen otherwise.
struct ConcentrationCurve {
  std::string substance;
  std::vector<ChartSeries> releases;  ///< minutes since fog-off, mg/m3
  std::vector<ChartLevel> limits;     ///< mg/m3
  double hold_minutes = 0;            ///< 0: no hold
};
[[nodiscard]] Chart concentration_chart(const ConcentrationCurve& curve, Language language);

/// Days are ISO dates; what is no date is left out.
struct StockCurve {
  std::string item, unit;                            ///< "Fenmist RTU", "gal"
  std::vector<std::pair<std::string, double>> days;  ///< on hand at the end of the day, in order
  std::optional<double> reorder_point;
};
[[nodiscard]] Chart stock_chart(const StockCurve& curve, Language language);

/// Used less planned, in percent, job by job, with the limits of the individuals chart. Points are flagged only
/// where there are enough of them.
[[nodiscard]] Chart use_chart(std::span<const double> off_by_percent, const ControlChart& limits,
                              Language language);

/// Months as "YYYY-MM".
[[nodiscard]] Chart departures_chart(std::span<const std::pair<std::string, int>> by_month, Language language);

}  // namespace fogwright::paper
