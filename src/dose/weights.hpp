// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <vector>

#include "fogwright/dose.hpp"

namespace fogwright {

/// What the seconds are split by: 1 each, whole square millimetres of face area, or whole millilitres of air a
/// second. Errors: missing_value (a return without what the rule needs), out_of_range (less than one such unit,
/// or more than 100 m2 or 100 m3/s).
[[nodiscard]] Result<std::vector<std::int64_t>> split_weights(const AirSystem& system, SplitRule rule);

}  // namespace fogwright
