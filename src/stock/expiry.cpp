// SPDX-License-Identifier: Apache-2.0
#include "stock/expiry.hpp"

#include <chrono>

namespace fogwright {
namespace {

std::optional<int> whole_number(std::string_view digits) {
  int value = 0;
  for (const char c : digits) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return value;
}

}  // namespace

std::optional<std::int64_t> end_of_day_ms(std::string_view iso_date) {
  using namespace std::chrono;
  if (iso_date.size() != 10 || iso_date[4] != '-' || iso_date[7] != '-') return std::nullopt;
  const auto y = whole_number(iso_date.substr(0, 4));
  const auto m = whole_number(iso_date.substr(5, 2));
  const auto d = whole_number(iso_date.substr(8, 2));
  if (!y || !m || !d) return std::nullopt;
  const year_month_day date{year{*y}, month{static_cast<unsigned>(*m)}, day{static_cast<unsigned>(*d)}};
  if (!date.ok()) return std::nullopt;
  const sys_days next_day = sys_days{date} + days{1};
  return std::int64_t{duration_cast<milliseconds>(next_day.time_since_epoch()).count()};
}

}  // namespace fogwright
