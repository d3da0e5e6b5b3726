// SPDX-License-Identifier: Apache-2.0
#include "cli/zone_time.hpp"

#include <date/tz.h>
#include <fmt/format.h>

#include <sstream>

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
  std::istringstream in(typed);
  in.imbue(std::locale::classic());
  date::local_time<milliseconds> local;
  in >> date::parse("%F %H:%M", local);
  if (in.fail() || in.peek() != std::istringstream::traits_type::eof())
    return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a time", typed), where,
                "write the time at the job's place, e.g. '2026-03-04 14:05'");
  return tz->to_sys(local, later ? date::choose::latest : date::choose::earliest).time_since_epoch().count();
}

}  // namespace fogwright
