// SPDX-License-Identifier: Apache-2.0
#include "cli/zone_time.hpp"

#include <date/tz.h>
#include <fmt/format.h>

#include "desk/checks.hpp"
#include "fogwright/store.hpp"

namespace fogwright {
namespace {

using std::chrono::milliseconds;

date::sys_time<milliseconds> point(std::int64_t ms) { return date::sys_time<milliseconds>{milliseconds{ms}}; }

const date::time_zone* find_zone(const std::string& zone) {
  try {
    return date::locate_zone(zone);
  } catch (const std::runtime_error&) {
    return nullptr;
  }
}

const date::time_zone* known_zone(const std::string& zone) {
  if (const auto* found = find_zone(zone)) return found;
  throw StorageFault(ErrorCode::file_fault, fmt::format("this system does not know the time zone {}", zone),
                     "install the time zones of the system (tzdata)");
}

/// "14:05"
std::optional<std::chrono::minutes> minutes_of_day(std::string_view text) {
  constexpr std::string_view digits = "0123456789";
  const auto digit = [&](std::size_t at) { return static_cast<int>(digits.find(text[at])); };
  if (text.size() != 5 || text[2] != ':') return std::nullopt;
  for (const std::size_t at : {0U, 1U, 3U, 4U})
    if (digits.find(text[at]) == std::string_view::npos) return std::nullopt;
  const int hours = 10 * digit(0) + digit(1);
  const int minutes = 10 * digit(3) + digit(4);
  if (hours > 23 || minutes > 59) return std::nullopt;
  return std::chrono::minutes{60 * hours + minutes};
}

}  // namespace

Result<void> check_zone_name(const std::string& zone) {
  if (!zone.empty() && find_zone(zone)) return {};
  return fail(ErrorCode::not_understood, fmt::format("\"{}\" is no time zone that this system knows", zone),
              "--zone", "write e.g. --zone America/Chicago");
}

LocalDay local_day(const std::string& zone, std::int64_t ms) {
  const auto* const tz = known_zone(zone);
  const auto day = date::floor<date::days>(tz->to_local(point(ms)));
  const auto began = tz->to_sys(date::local_time<milliseconds>{day}, date::choose::earliest);
  return {date::format("%F", day), began.time_since_epoch().count()};
}

std::string local_time(const std::string& zone, std::int64_t ms) {
  const date::zoned_time<std::chrono::seconds> at{known_zone(zone),
                                                  date::floor<std::chrono::seconds>(point(ms))};
  return date::format("%F %H:%M %Z", at);
}

Result<std::int64_t> read_local_time(const std::string& typed, const std::string& zone, bool later,
                                     const std::string& where) {
  const auto* const tz = known_zone(zone);
  const auto day = typed.size() == 16 && typed[10] == ' ' ? read_date(typed.substr(0, 10), "the day", where)
                                                          : fail(ErrorCode::not_understood, {});
  const auto minutes = day ? minutes_of_day(typed.substr(11)) : std::nullopt;
  if (!minutes)
    return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a time", typed), where,
                "write the time at the job's place, e.g. '2026-03-04 14:05'");
  const date::local_days local{date::year{static_cast<int>(day->year())} /
                               date::month{static_cast<unsigned>(day->month())} /
                               date::day{static_cast<unsigned>(day->day())}};
  const date::local_time<milliseconds> at = local + *minutes;
  return tz->to_sys(at, later ? date::choose::latest : date::choose::earliest).time_since_epoch().count();
}

}  // namespace fogwright
