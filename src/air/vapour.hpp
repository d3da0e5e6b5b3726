// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/air.hpp"

namespace fogwright::air {

/// air_after_fogging without the haze, moisture and flammability: what decides the model time. Precondition:
/// check_input passed.
[[nodiscard]] AirResult vapours(const Zone& zone, const AirInput& input);

/// The vapour actives with their limits, which depend on neither dose nor ventilation.
[[nodiscard]] std::vector<ActiveAir> known_limits(const Zone& zone, const AirInput& input);
/// The same as vapours(zone, input), for known_limits() of this label, entered limits and occupant factor.
[[nodiscard]] AirResult vapours(const Zone& zone, const AirInput& input, std::vector<ActiveAir> known);
/// With haze, moisture and flammability.
[[nodiscard]] AirResult everything(const Zone& zone, const AirInput& input, std::vector<ActiveAir> known);

}  // namespace fogwright::air
