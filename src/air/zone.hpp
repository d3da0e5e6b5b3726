// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/air.hpp"

namespace fogwright::air {

/// A figure that must lie inside the model: what it is, its value, the range, as shown in an error.
struct Bounded {
  std::string_view name;
  double value = 0;
  double low = 0, high = 0;
  std::string_view unit;
};
/// Errors: out_of_range for the first that is outside, or not a number.
[[nodiscard]] Result<void> check_bounds(std::span<const Bounded> figures);

/// check_zone and everything of the input that a face promises to refuse.
[[nodiscard]] Result<void> check_input(const Zone& zone, const AirInput& input);

[[nodiscard]] inline AirVolume free_volume(const Zone& zone) { return zone.gross * zone.free_fraction; }

}  // namespace fogwright::air
