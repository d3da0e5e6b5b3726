// SPDX-License-Identifier: Apache-2.0
#include "desk/money.hpp"

#include <fmt/format.h>

namespace fogwright {

Result<std::int64_t> read_cents(std::string_view text, std::string_view where) {
  const auto refuse = [&] {
    return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not an amount of money", text),
                std::string(where), "write e.g. 84.50");
  };
  std::string_view digits = text;
  if (digits.starts_with('$')) digits.remove_prefix(1);
  const auto point = digits.find('.');
  const std::string_view whole = digits.substr(0, point);
  const std::string_view cents = point == std::string_view::npos ? "00" : digits.substr(point + 1);
  if (whole.empty() || whole.size() > 9 || cents.size() != 2) return refuse();
  std::int64_t value = 0;
  for (const std::string_view part : {whole, cents})
    for (const char c : part) {
      if (c < '0' || c > '9') return refuse();
      value = value * 10 + (c - '0');
    }
  return value;
}

std::string show_cents(std::int64_t cents) {
  const std::int64_t size = cents < 0 ? -cents : cents;
  return fmt::format("{}${}.{:02}", cents < 0 ? "-" : "", size / 100, size % 100);
}

}  // namespace fogwright
