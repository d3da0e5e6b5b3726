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

Case run(const Zone& zone, const AirInput& input, std::span<ActiveAir> actives) {
  const air::Ventilation ventilation = air::ventilation_of(zone, *input.label);
  const air::VapourTimes times = air::add_vapours(actives, zone, input, ventilation, air::Times::occupants);
  const auto worst =
      std::max_element(actives.begin(), actives.end(),
                       [](const ActiveAir& a, const ActiveAir& b) { return a.hazard_ratio < b.hazard_ratio; });
  return {times.model_time, worst == actives.end() ? MassConcentration{} : worst->peak};
}

Case friendly(Zone zone, AirInput input, const CaseSpread& spread, std::span<ActiveAir> actives) {
  if (spread.volume_low.si() > 0) input.volume = std::min(input.volume, spread.volume_low);
  zone.closed = std::max(zone.closed, spread.closed_high);
  if (zone.airing) zone.airing = *zone.airing * (1 + spread.airing_relative);
  zone.free_fraction = std::min(zone.free_fraction + spread.free_fraction_deviation, 1.0);
  return run(zone, input, actives);
}

Case hostile(Zone zone, AirInput input, const CaseSpread& spread, std::span<ActiveAir> actives) {
  input.volume = std::max(input.volume, spread.volume_high);
  if (zone.airing) zone.airing = *zone.airing * (1 - spread.airing_relative);
  zone.free_fraction -= spread.free_fraction_deviation;
  return run(zone, input, actives);
}

Result<void> check_spread(const Zone& zone, const CaseSpread& spread) {
  const double most_litres = air::most_liquid.value_in(unit::litre);
  air::Ranges ranges;
  ranges.check("higher air changes", spread.closed_high.value_in(unit::per_hour), 0,
               air::most_air_changes.value_in(unit::per_hour), "per hour");
  ranges.check("spread of the airing", spread.airing_relative, 0, 1);
  ranges.check("spread of the free fraction", spread.free_fraction_deviation, 0, zone.free_fraction - 0.01);
  ranges.check("low volume", spread.volume_low.value_in(unit::litre), 0, most_litres, "L");
  ranges.check("high volume", spread.volume_high.value_in(unit::litre), 0, most_litres, "L");
  return ranges.result();
}

}  // namespace

Result<AirWithCases> air_with_cases(const Zone& zone, const AirInput& input, const CaseSpread& spread) {
  if (auto ok = air::check_input(zone, input); !ok) return tl::make_unexpected(std::move(ok.error()));
  if (auto ok = check_spread(zone, spread); !ok) return tl::make_unexpected(std::move(ok.error()));
  std::vector<ActiveAir> actives = air::known_limits(zone, input);
  const Case low = friendly(zone, input, spread, actives);
  const Case high = hostile(zone, input, spread, actives);
  return AirWithCases{air::everything(zone, input, std::move(actives)),
                      {low.time, high.time, low.peak, high.peak}};
}

}  // namespace fogwright
