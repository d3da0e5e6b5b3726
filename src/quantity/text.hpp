// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>

namespace fogwright::text {

[[nodiscard]] constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }
[[nodiscard]] constexpr bool is_space(char c) { return c == ' ' || c == '\t'; }
[[nodiscard]] constexpr char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}
[[nodiscard]] std::string_view trim(std::string_view s);

/// Typographic characters as their plain ASCII spelling: "m²" as "m2", "8′6″" as "8'6\"", "½" as " 1/2",
/// "×" as "x", "°" as "deg". Anything else stays as it is.
[[nodiscard]] std::string to_ascii_symbols(std::string_view s);

/// The value between quotation marks, fit to be printed and to go into JSON: at most 40 characters, with
/// control characters, invisible characters and broken UTF-8 escaped as \xNN.
[[nodiscard]] std::string quoted(std::string_view s);

/// A unit as it stands in the unit table: "Square Feet", "sq. ft." and "sqft" all become "sqft".
[[nodiscard]] std::string canonical_unit(std::string_view s);

}  // namespace fogwright::text
