// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "fogwright/book/canonical_json.hpp"

namespace fogwright {
namespace {

// value = 0.DIGITS x 10^point, without sign; DIGITS has no zero at either end.
struct Decimal {
  std::string digits;
  int point = 0;
};

// fmt prints the shortest digits that read back as the same double (of those, the nearest), which is what
// ECMAScript asks for; only the layout differs. std::to_chars for double is missing in some libraries.
Decimal shortest(double positive) {
  const std::string text = fmt::format("{}", positive);
  const std::size_t exponent_at = text.find('e');
  const std::string mantissa = text.substr(0, exponent_at);
  const int exponent = exponent_at == std::string::npos ? 0 : std::stoi(text.substr(exponent_at + 1));
  Decimal decimal;
  for (const char c : mantissa) {
    if (c != '.') decimal.digits += c;
  }
  decimal.point = static_cast<int>(std::min(mantissa.find('.'), mantissa.size())) + exponent;
  const std::size_t zeros = decimal.digits.find_first_not_of('0');
  decimal.digits.erase(0, zeros);
  decimal.point -= static_cast<int>(zeros);
  decimal.digits.erase(decimal.digits.find_last_not_of('0') + 1);
  return decimal;
}

// ECMA-262, Number::toString, radix 10: k digits, n the position of the point.
std::string layout(const Decimal& decimal) {
  const int k = static_cast<int>(decimal.digits.size());
  const int n = decimal.point;
  const auto zeros = [](int count) { return std::string(static_cast<std::size_t>(count), '0'); };
  if (k <= n && n <= 21) return decimal.digits + zeros(n - k);
  if (0 < n && n <= 21) return std::string(decimal.digits).insert(static_cast<std::size_t>(n), ".");
  if (-6 < n && n <= 0) return "0." + zeros(-n) + decimal.digits;
  const std::string fraction = k > 1 ? "." + decimal.digits.substr(1) : "";
  return fmt::format("{}{}e{:+d}", decimal.digits[0], fraction, n - 1);
}

}  // namespace

Result<std::string> canonical_number(double value) {
  if (!std::isfinite(value)) {
    return fail(ErrorCode::bad_entry, "JSON has no text for a number that is not finite");
  }
  if (value == 0) return "0";  // negative zero as well
  return (value < 0 ? "-" : "") + layout(shortest(std::abs(value)));
}

}  // namespace fogwright
