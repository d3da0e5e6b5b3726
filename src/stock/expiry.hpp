// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace fogwright {

/// First millisecond after the day "YYYY-MM-DD" in UTC; nullopt for anything that is not a date of the
/// calendar.
[[nodiscard]] std::optional<std::int64_t> end_of_day_ms(std::string_view iso_date);

}  // namespace fogwright
