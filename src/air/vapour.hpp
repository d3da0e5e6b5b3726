// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "air/active.hpp"

namespace fogwright::air {

/// The vapour actives with their limits, which depend on neither dose nor ventilation.
[[nodiscard]] std::vector<ActiveAir> known_limits(const Zone& zone, const AirInput& input);

/// What a dose and a ventilation come to; decides the model time. Precondition: check_input passed, and the
/// actives are known_limits() of this label, entered limits and occupant factor. They may hold what another
/// dose did: it is overwritten.
struct VapourTimes {
  std::optional<TimeToLimit> to_mixture_occupant;
  HoldTime model_time{};
};
[[nodiscard]] VapourTimes add_vapours(std::span<ActiveAir> actives, const Zone& zone, const AirInput& input,
                                      const Ventilation& ventilation, Times times);

/// air_after_fogging without the haze, moisture and flammability.
[[nodiscard]] AirResult vapours(const Zone& zone, const AirInput& input);
/// All of air_after_fogging. Preconditions as for add_vapours.
[[nodiscard]] AirResult everything(const Zone& zone, const AirInput& input, std::vector<ActiveAir> known);

}  // namespace fogwright::air
