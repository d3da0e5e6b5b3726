// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/air.hpp"

namespace fogwright::air {

[[nodiscard]] Moisture moisture_of(const Zone& zone, const AirInput& input, AirVolume free);

}  // namespace fogwright::air
