// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "fogwright/paper/forms.hpp"

namespace fogwright::paper {

/// "Monday, March 2, 2026"; "lunes, 2 de marzo de 2026". What is no date of the calendar stays in figures.
[[nodiscard]] std::string long_date(const LocalTime& time, Language language);
/// "2:05 PM CST"; "14:05 CST"
[[nodiscard]] std::string clock_time(const LocalTime& time, Language language, bool with_zone = true);
/// Both.
[[nodiscard]] std::string long_time(const LocalTime& time, Language language);

/// Days since 1970-01-01 of an ISO date; nullopt where it is none.
[[nodiscard]] std::optional<int> day_number(std::string_view iso_date);

}  // namespace fogwright::paper
