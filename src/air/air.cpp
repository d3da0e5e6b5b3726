// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <utility>
#include <vector>

#include "air/flammable.hpp"
#include "air/haze.hpp"
#include "air/mixture.hpp"
#include "air/moisture.hpp"
#include "air/vapour.hpp"
#include "air/zone.hpp"

namespace fogwright {

namespace air {

namespace {

AirResult vapours(const Zone& zone, const AirInput& input, const Ventilation& ventilation,
                  std::vector<ActiveAir> known) {
  AirResult result;
  result.gross = zone.gross;
  result.free = free_volume(zone);
  result.actives = std::move(known);
  const VapourTimes times = add_vapours(result.actives, zone, input, ventilation, Times::everyone);
  result.to_mixture_occupant = times.to_mixture_occupant;
  result.model_time = times.model_time;
  for (const ActiveAir& active : result.actives) {
    result.estimable = result.estimable && active.estimable;
    result.above_immediately_dangerous =
        result.above_immediately_dangerous || active.above_immediately_dangerous;
    if (active.worker) result.mixture_index += active.peak / active.worker->value;
  }
  return result;
}

}  // namespace

std::vector<ActiveAir> known_limits(const Zone& zone, const AirInput& input) {
  std::vector<ActiveAir> known;
  known.reserve(input.label->actives.size());
  for (const Active& active : input.label->actives) {
    if (active.release != Release::vapour) continue;
    ActiveAir& air = known.emplace_back();
    air.active = &active;
    add_limits(air, zone, input);
  }
  return known;
}

VapourTimes add_vapours(std::span<ActiveAir> actives, const Zone& zone, const AirInput& input,
                        const Ventilation& ventilation, Times times) {
  VapourTimes result;
  const AirVolume free = free_volume(zone);
  for (ActiveAir& active : actives) {
    add_air(active, zone, input, ventilation, free, times);
    if (active.to_occupant) result.model_time = std::max(result.model_time, active.to_occupant->longer());
  }
  result.to_mixture_occupant = mixture_time(zone, *input.label, ventilation, actives);
  if (result.to_mixture_occupant)
    result.model_time = std::max(result.model_time, result.to_mixture_occupant->longer());
  return result;
}

AirResult vapours(const Zone& zone, const AirInput& input) {
  return vapours(zone, input, ventilation_of(zone, *input.label), known_limits(zone, input));
}

AirResult everything(const Zone& zone, const AirInput& input, std::vector<ActiveAir> known) {
  const Ventilation ventilation = ventilation_of(zone, *input.label);
  AirResult result = vapours(zone, input, ventilation, std::move(known));
  result.haze = haze_of(zone, input, ventilation, result.free);
  result.flammable = flammable_air(zone, input, result.free);
  result.moisture = moisture_of(zone, input, result.free);
  if (zone.airing) result.airing = PlannedAiring{*zone.airing, airing_start(zone, *input.label)};
  return result;
}

}  // namespace air

Result<AirResult> air_after_fogging(const Zone& zone, const AirInput& input) {
  if (auto ok = air::check_input(zone, input); !ok) return tl::make_unexpected(std::move(ok.error()));
  return air::everything(zone, input, air::known_limits(zone, input));
}

}  // namespace fogwright
