// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "fogwright/dose.hpp"

namespace fogwright {

/// How an error names a system: `system "upstairs"`.
[[nodiscard]] std::string name_of(const AirSystem& system);
/// How an error names a return: `return "hall" of system "upstairs"`.
[[nodiscard]] std::string name_of_return(const AirSystem& system, std::size_t index);

/// Whether an ingredient of a mixing table comes from the tap: "water", "tap water", "Water (cold)", but not
/// "water softener" and not "Brackwater".
[[nodiscard]] bool is_water(std::string_view ingredient);

}  // namespace fogwright
