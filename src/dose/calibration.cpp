// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "dose/student_t.hpp"
#include "fogwright/dose.hpp"

namespace fogwright {
namespace {

constexpr LiquidFlow largest_flow(20, unit::litre_per_minute);
constexpr double large_relative_spread = 0.10;
constexpr int least_runs = 3;

constexpr LiquidVolume gallon(1, unit::us_gallon);
constexpr FogTime usual_job(2.4 * (45.0 + 60.0) / 2, unit::second);  // 2,400 sq ft at the middle of the band

bool positive(double value) { return value > 0 && std::isfinite(value); }

Error flow_error(LiquidFlow flow, std::string where, std::string hint) {
  return {ErrorCode::out_of_range,
          fmt::format("A flow of {} mL/min is not above zero and up to 20 L/min.",
                      show_number(flow.value_in(unit::millilitre_per_minute), 4)),
          std::move(where), std::move(hint)};
}

Result<void> check_runs(std::span<const CatchTest> runs) {
  if (runs.empty())
    return fail(ErrorCode::missing_value, "A calibration needs at least one catch test.", "catch tests",
                "Catch the fog of three timed runs and give the volume and the time of each.");
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const bool timed = positive(runs[i].time.si());
    if (timed && positive(runs[i].caught.si())) continue;
    return fail(ErrorCode::out_of_range,
                fmt::format("The {} of catch test {} is not above zero.", timed ? "volume" : "time", i + 1),
                fmt::format("catch test {}", i + 1), "Repeat this run, or leave it out.");
  }
  return {};
}

LiquidFlow flow_of_all(std::span<const CatchTest> runs) {
  LiquidVolume caught;
  FogTime time;
  for (const CatchTest& run : runs) {
    caught += run.caught;
    time += run.time;
  }
  return caught / time;
}

// Standard deviation of the single flows over their mean; zero for a single run.
double relative_spread_of(std::span<const CatchTest> runs) {
  if (runs.size() < 2) return 0;
  const auto count = static_cast<double>(runs.size());
  double mean = 0;
  for (const CatchTest& run : runs) mean += (run.caught / run.time).si() / count;
  double squares = 0;
  for (const CatchTest& run : runs) squares += std::pow((run.caught / run.time).si() / mean - 1, 2);
  return std::sqrt(squares / (count - 1));
}

}  // namespace

Result<Calibration> calibrate(std::span<const CatchTest> runs) {
  if (auto checked = check_runs(runs); !checked) return tl::make_unexpected(std::move(checked.error()));
  Calibration result;
  result.flow = flow_of_all(runs);
  if (result.flow > largest_flow)
    return tl::make_unexpected(
        flow_error(result.flow, "catch tests", "Check the units of the volumes and times."));
  result.runs = static_cast<int>(runs.size());
  result.relative_spread = relative_spread_of(runs);
  result.large_spread = result.relative_spread > large_relative_spread || result.runs < least_runs;
  const double half_width =
      result.runs < 2 ? 0 : student_t_95(result.runs - 1) * result.relative_spread / std::sqrt(result.runs);
  result.low = result.flow * std::max(0.0, 1 - half_width);
  result.high = result.flow * (1 + half_width);
  return result;
}

Calibration gallon_rule() {
  Calibration result;
  result.flow = gallon / 10 / usual_job;
  result.low = gallon / 12 / usual_job;
  result.high = result.flow;
  result.basis = Basis::estimated;
  return result;
}

Result<Calibration> entered_flow(LiquidFlow flow) {
  if (!(flow.si() > 0 && flow <= largest_flow))
    return tl::make_unexpected(
        flow_error(flow, "flow", "Give the fogger's output, such as 180 mL/min or 6 fl oz/min."));
  Calibration result;
  result.flow = result.low = result.high = flow;
  result.basis = Basis::entered;
  return result;
}

FogVolume fog_volume(const Calibration& calibration, std::int64_t target_seconds, std::int64_t high_seconds) {
  const FogTime target(static_cast<double>(target_seconds), unit::second);
  const FogTime high(static_cast<double>(high_seconds), unit::second);
  return {calibration.flow * target, calibration.high * high, calibration.low * target};
}

}  // namespace fogwright
