// SPDX-License-Identifier: Apache-2.0
/// Planned against used, and the drift of a fogger.

#include <cmath>
#include <numeric>

#include "fogwright/stock.hpp"

namespace fogwright {
namespace {

constexpr double d2_of_two = 1.128;  // NIST/SEMATECH e-Handbook 6.3.2.2, as printed
constexpr std::size_t enough = 20;

double mean_step(std::span<const double> values) {
  double sum = 0;
  for (std::size_t i = 1; i < values.size(); ++i) sum += std::abs(values[i] - values[i - 1]);
  return sum / static_cast<double>(values.size() - 1);
}

}  // namespace

Result<ControlChart> individuals_chart(std::span<const double> values) {
  if (values.size() < 2)
    return fail(ErrorCode::missing_value, "A control chart needs at least two points.", "values",
                "Close another job first.");
  ControlChart chart;
  chart.centre = std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
  chart.mean_moving_range = mean_step(values);
  const double reach = 3 * chart.mean_moving_range / d2_of_two;
  chart.upper = chart.centre + reach;
  chart.lower = chart.centre - reach;
  chart.enough_points = values.size() >= enough;
  if (!chart.enough_points) return chart;
  for (std::size_t i = 0; i < values.size(); ++i)
    if (values[i] > chart.upper || values[i] < chart.lower) chart.outside.push_back(i);
  return chart;
}

double flow_drift(double flow_now, double flow_then) { return flow_now / flow_then - 1; }

}  // namespace fogwright
