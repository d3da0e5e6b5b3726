// SPDX-License-Identifier: Apache-2.0
/// Planned against used, and the drift of a fogger.

#include <cmath>

#include "fogwright/stock.hpp"

namespace fogwright {
namespace {

constexpr double d2_of_two = 1.128;  // NIST/SEMATECH e-Handbook 6.3.2.2, as printed
constexpr std::size_t enough = 20;

}  // namespace

void ChartLimits::add(double value) {
  if (count_ > 0) moving_ += std::abs(value - last_);
  sum_ += value;
  last_ = value;
  ++count_;
}

ControlChart ChartLimits::chart() const {
  ControlChart chart;
  chart.centre = sum_ / static_cast<double>(count_);
  chart.mean_moving_range = moving_ / static_cast<double>(count_ - 1);
  const double reach = 3 * chart.mean_moving_range / d2_of_two;
  chart.upper = chart.centre + reach;
  chart.lower = chart.centre - reach;
  chart.enough_points = count_ >= enough;
  return chart;
}

bool beyond(const ControlChart& chart, double value) {
  return chart.enough_points && (value > chart.upper || value < chart.lower);
}

Result<ControlChart> individuals_chart(std::span<const double> values) {
  if (values.size() < 2)
    return fail(ErrorCode::missing_value, "A control chart needs at least two points.", "values",
                "Close another job first.");
  ChartLimits limits;
  for (const double value : values) limits.add(value);
  ControlChart chart = limits.chart();
  for (std::size_t i = 0; i < values.size(); ++i)
    if (beyond(chart, values[i])) chart.outside.push_back(i);
  return chart;
}

double flow_drift(double flow_now, double flow_then) { return flow_now / flow_then - 1; }

}  // namespace fogwright
