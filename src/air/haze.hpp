// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "air/release.hpp"

namespace fogwright::air {

[[nodiscard]] Haze haze_of(const Zone& zone, const AirInput& input, const Ventilation& ventilation,
                           AirVolume free);

}  // namespace fogwright::air
