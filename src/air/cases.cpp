// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <utility>

#include "air/constants.hpp"
#include "air/vapour.hpp"
#include "air/zone.hpp"

namespace fogwright {

namespace {

struct Case {
  HoldTime time{};
  MassConcentration peak{};
};

using Known = std::vector<ActiveAir>;

Case run(const Zone& zone, const AirInput& input, Known known) {
  const AirResult result = air::vapours(zone, input, std::move(known));
  const auto worst =
      std::max_element(result.actives.begin(), result.actives.end(),
                       [](const ActiveAir& a, const ActiveAir& b) { return a.hazard_ratio < b.hazard_ratio; });
  return {result.model_time, worst == result.actives.end() ? MassConcentration{} : worst->peak};
}

Case friendly(Zone zone, AirInput input, const CaseSpread& spread, const Known& known) {
  if (spread.volume_low.si() > 0) input.volume = std::min(input.volume, spread.volume_low);
  zone.closed = std::max(zone.closed, spread.closed_high);
  if (zone.airing) zone.airing = *zone.airing * (1 + spread.airing_relative);
  zone.free_fraction = std::min(zone.free_fraction + spread.free_fraction_deviation, 1.0);
  return run(zone, input, known);
}

Case hostile(Zone zone, AirInput input, const CaseSpread& spread, Known known) {
  input.volume = std::max(input.volume, spread.volume_high);
  if (zone.airing) zone.airing = *zone.airing * (1 - spread.airing_relative);
  zone.free_fraction -= spread.free_fraction_deviation;
  return run(zone, input, std::move(known));
}

Result<void> check_spread(const Zone& zone, const CaseSpread& spread) {
  const double most_litres = air::most_liquid.value_in(unit::litre);
  const double most_changes = air::most_air_changes.value_in(unit::per_hour);
  const air::Bounded figures[] = {
      {"higher air changes", spread.closed_high.value_in(unit::per_hour), 0, most_changes, "per hour"},
      {"spread of the airing", spread.airing_relative, 0, 1, ""},
      {"spread of the free fraction", spread.free_fraction_deviation, 0, zone.free_fraction - 0.01, ""},
      {"low volume", spread.volume_low.value_in(unit::litre), 0, most_litres, "L"},
      {"high volume", spread.volume_high.value_in(unit::litre), 0, most_litres, "L"},
  };
  return air::check_bounds(figures);
}

}  // namespace

Result<AirWithCases> air_with_cases(const Zone& zone, const AirInput& input, const CaseSpread& spread) {
  if (auto ok = air::check_input(zone, input); !ok) return tl::make_unexpected(std::move(ok.error()));
  if (auto ok = check_spread(zone, spread); !ok) return tl::make_unexpected(std::move(ok.error()));
  Known known = air::known_limits(zone, input);
  AirResult nominal = air::everything(zone, input, known);
  const Case low = friendly(zone, input, spread, known);
  const Case high = hostile(zone, input, spread, std::move(known));
  return AirWithCases{std::move(nominal), {low.time, high.time, low.peak, high.peak}};
}

}  // namespace fogwright
