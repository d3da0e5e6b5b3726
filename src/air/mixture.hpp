// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "air/release.hpp"

namespace fogwright::air {

/// Time until the sum of concentration over occupant limit, over the actives that have one, stays at or below
/// 1; nullopt where none has. Never earlier than the exact time; a billionth of it later at most where the
/// actives have different losses or off-gassing times.
[[nodiscard]] std::optional<TimeToLimit> mixture_time(const Zone& zone, const Label& label,
                                                      const Ventilation& ventilation,
                                                      std::span<const ActiveAir> actives);

}  // namespace fogwright::air
