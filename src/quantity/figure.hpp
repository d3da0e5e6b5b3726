// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

#include "fogwright/quantity.hpp"

namespace fogwright::text {

/// What is printed for a value that is not finite or has more than 15 digits.
inline constexpr std::string_view out_of_range_figure = "out of range";

/// The value as a whole number in the given direction, but for the noise of a conversion (as in
/// Quantity::floor_in): 108.0000000000001 rounds up to 108.
[[nodiscard]] double rounded(double value, Rounding rounding);

/// Exactly `decimals` decimals, thousands grouped: "1,234.50".
[[nodiscard]] std::string fixed_figure(double value, int decimals, Rounding rounding);

/// At least `digits` significant digits, but every digit before the point; no trailing zeros: "19,231", "6.09".
[[nodiscard]] std::string working_figure(double value, int digits, Rounding rounding);

}  // namespace fogwright::text
