// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/air.hpp"

namespace fogwright::air {

/// air_after_fogging without the haze, moisture and flammability: what decides the model time. Precondition:
/// check_input passed.
[[nodiscard]] AirResult vapours(const Zone& zone, const AirInput& input);

/// The same for actives whose limits are known already: they depend on neither dose nor ventilation.
[[nodiscard]] AirResult vapours(const Zone& zone, const AirInput& input, std::vector<ActiveAir> known);

}  // namespace fogwright::air
