// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <utility>
#include <vector>

#include "air/active.hpp"
#include "air/flammable.hpp"
#include "air/haze.hpp"
#include "air/mixture.hpp"
#include "air/moisture.hpp"
#include "air/vapour.hpp"
#include "air/zone.hpp"

namespace fogwright {

namespace air {

namespace {

void count(AirResult& result, const ActiveAir& active) {
  result.estimable = result.estimable && active.estimable;
  result.above_immediately_dangerous = result.above_immediately_dangerous || active.above_immediately_dangerous;
  if (active.worker) result.mixture_index += active.peak / active.worker->value;
  if (active.to_occupant) result.model_time = std::max(result.model_time, active.to_occupant->longer());
}

}  // namespace

std::vector<ActiveAir> known_limits(const Zone& zone, const AirInput& input) {
  std::vector<ActiveAir> known;
  known.reserve(input.label->actives.size());
  for (const Active& active : input.label->actives)
    if (active.release == Release::vapour) known.push_back(limits_of(zone, input, active));
  return known;
}

AirResult vapours(const Zone& zone, const AirInput& input) {
  return vapours(zone, input, known_limits(zone, input));
}

AirResult vapours(const Zone& zone, const AirInput& input, std::vector<ActiveAir> known) {
  AirResult result;
  result.gross = zone.gross;
  result.free = free_volume(zone);
  const Ventilation ventilation = ventilation_of(zone, *input.label);
  result.actives = std::move(known);
  for (ActiveAir& active : result.actives) {
    add_air(active, zone, input, ventilation, result.free);
    count(result, active);
  }
  result.to_mixture_occupant = mixture_time(zone, *input.label, ventilation, result.actives);
  if (result.to_mixture_occupant)
    result.model_time = std::max(result.model_time, result.to_mixture_occupant->longer());
  return result;
}

AirResult everything(const Zone& zone, const AirInput& input, std::vector<ActiveAir> known) {
  AirResult result = vapours(zone, input, std::move(known));
  result.haze = haze_of(zone, input, ventilation_of(zone, *input.label), result.free);
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
