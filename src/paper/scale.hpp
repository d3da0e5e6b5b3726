// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "fogwright/paper/chart.hpp"

namespace fogwright::paper {

/// Where a value stands between two ends: 0 at `low`, 1 at `high`.
struct Scale {
  double low = 0, high = 1;
  bool logarithmic = false;
  bool counts = false;  ///< no values between whole numbers
  [[nodiscard]] double at(double value) const;
  /// Round values between the ends, about `wanted` of them (decades where logarithmic).
  [[nodiscard]] std::vector<double> round_values(int wanted) const;
};

/// From the data, levels and marks of a chart, with a little room. y starts at zero, unless values are below
/// it.
[[nodiscard]] Scale x_scale(const Chart& chart);
[[nodiscard]] Scale y_scale(const Chart& chart);

[[nodiscard]] bool drawable(const ChartPoint& point);
/// Up to four significant digits, without an exponent: "0.28", "1250".
[[nodiscard]] std::string short_number(double value);

}  // namespace fogwright::paper
