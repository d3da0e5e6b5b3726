// SPDX-License-Identifier: Apache-2.0
/// What to order, and how long the stock lasts.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "fogwright/stock.hpp"

namespace fogwright {
namespace {

constexpr std::size_t least_days = 7;
constexpr std::int64_t largest = std::numeric_limits<std::int64_t>::max();

double square(double x) { return x * x; }

/// A whole double as an integer: never below zero; `largest` where it does not fit or is not a number.
std::int64_t whole(double value) {
  if (!(value < static_cast<double>(largest))) return largest;
  return static_cast<std::int64_t>(std::max(value, 0.0));
}

}  // namespace

Result<DailyDemand> daily_demand(std::span<const std::int64_t> used_ul_per_day) {
  const std::size_t days = used_ul_per_day.size();
  if (days < least_days)
    return fail(ErrorCode::missing_value,
                fmt::format("The use of {} days is too little to reckon demand from.", days), "days",
                fmt::format("Give at least {} days; a day without use counts as zero.", least_days));
  const double mean =
      std::accumulate(used_ul_per_day.begin(), used_ul_per_day.end(), 0.0) / static_cast<double>(days);
  double squares = 0;
  for (const std::int64_t used : used_ul_per_day) squares += square(static_cast<double>(used) - mean);
  return DailyDemand{mean, std::sqrt(squares / static_cast<double>(days - 1)), static_cast<int>(days)};
}

std::int64_t reorder_point_ul(const DailyDemand& demand, const ReorderRule& rule) {
  const double variance = rule.lead_time_days * square(demand.deviation_ul) +
                          square(demand.mean_ul * rule.lead_time_deviation_days);
  return whole(std::ceil(demand.mean_ul * rule.lead_time_days + rule.service_z * std::sqrt(variance)));
}

std::optional<std::int64_t> days_of_cover(std::int64_t on_hand_ul, const DailyDemand& demand) {
  if (!(demand.mean_ul > 0)) return std::nullopt;
  return whole(std::floor(static_cast<double>(on_hand_ul) / demand.mean_ul));
}

std::optional<std::int64_t> jobs_left(std::int64_t on_hand_ul, std::int64_t used_per_job_ul) {
  if (used_per_job_ul <= 0) return std::nullopt;
  return std::max<std::int64_t>(on_hand_ul, 0) / used_per_job_ul;
}

Result<std::vector<double>> exponential_smoothing(std::span<const double> values, double alpha) {
  if (!(alpha > 0 && alpha <= 1))
    return fail(ErrorCode::out_of_range, "The smoothing constant is not above 0 and at most 1.", "alpha",
                "Give a number above 0, up to 1.");
  if (values.size() < 2)
    return fail(ErrorCode::missing_value, "Smoothing needs at least two values.", "values",
                "Wait until there are two.");
  std::vector<double> smoothed{values.front()};
  for (const double value : values.subspan(1))
    smoothed.push_back(alpha * value + (1 - alpha) * smoothed.back());
  return smoothed;
}

}  // namespace fogwright
