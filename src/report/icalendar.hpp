// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Calendars for other programs: iCalendar (RFC 5545).

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fogwright {

/// Either a whole day, or a moment (UTC milliseconds) with or without an end.
struct CalendarEvent {
  std::string uid;  ///< the same for the same thing in every calendar
  std::string summary, description, category;
  std::string day;  ///< ISO date; empty for a moment
  std::int64_t from_ms = 0;
  std::optional<std::int64_t> until_ms;
  std::int64_t alarm_minutes = 0;  ///< before it begins, or with an end: before its end
};

/// A whole VCALENDAR of that name, as of `stamp_ms`. An event with an end shows as busy, all others as free.
[[nodiscard]] std::string icalendar_text(std::string_view name, std::int64_t stamp_ms,
                                         const std::vector<CalendarEvent>& events);

/// A TEXT value: backslash, semicolon and comma escaped, a line break as \n (section 3.3.11). Other control
/// characters, which no value may hold, become spaces.
[[nodiscard]] std::string icalendar_escaped(std::string_view text);
/// A content line with its CRLF, folded at 75 octets and never inside a character (section 3.1).
[[nodiscard]] std::string icalendar_line(std::string_view line);

}  // namespace fogwright
