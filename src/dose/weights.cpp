// SPDX-License-Identifier: Apache-2.0
#include "dose/weights.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>

#include "dose/naming.hpp"

namespace fogwright {
namespace {

constexpr double per_si = 1e6;  // square millimetres in a square metre, millilitres in a cubic metre
constexpr double largest_si =
    100.0;  // 100 m2 of grille, 100 m3/s (212,000 cfm) through one: a slip of the unit

struct Measure {
  std::string_view noun;
  std::string_view advice;
};

Measure measure_of(SplitRule rule) {
  if (rule == SplitRule::face_area)
    return {"face area", "Measure it and give it as 20x30 in or 600 sq in, or split equally."};
  return {"airflow", "Measure it and give it in cfm or m3/h, or split equally."};
}

std::optional<double> measured_si(const ReturnIntake& intake, SplitRule rule) {
  if (rule == SplitRule::face_area) return intake.face ? std::optional(intake.face->si()) : std::nullopt;
  return intake.airflow ? std::optional(intake.airflow->si()) : std::nullopt;
}

Error missing(const AirSystem& system, std::size_t index, SplitRule rule) {
  const auto [noun, advice] = measure_of(rule);
  const std::string name = name_of_return(system, index);
  return {ErrorCode::missing_value,
          fmt::format("Splitting by {0} needs the {0} of every return; {1} has none.", noun, name),
          fmt::format("{}: {}", name, noun), std::string(advice)};
}

Error unusable(const AirSystem& system, std::size_t index, SplitRule rule, double si) {
  const auto [noun, advice] = measure_of(rule);
  const std::string name = name_of_return(system, index);
  return {ErrorCode::out_of_range,
          fmt::format("The {} of {} is {}.", noun, name,
                      si > 0 ? "absurdly large" : "not above zero, so it would get no time"),
          fmt::format("{}: {}", name, noun), std::string(advice)};
}

}  // namespace

Result<std::vector<std::int64_t>> split_weights(const AirSystem& system, SplitRule rule) {
  std::vector<std::int64_t> weights(system.returns.size(), 1);
  if (rule == SplitRule::equal) return weights;
  for (std::size_t i = 0; i < weights.size(); ++i) {
    const std::optional<double> si = measured_si(system.returns[i], rule);
    if (!si) return tl::make_unexpected(missing(system, i, rule));
    if (!(*si * per_si >= 0.5 && *si <= largest_si)) return tl::make_unexpected(unusable(system, i, rule, *si));
    weights[i] = std::llround(*si * per_si);
  }
  return weights;
}

}  // namespace fogwright
