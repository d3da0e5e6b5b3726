// SPDX-License-Identifier: Apache-2.0
#include "asking/zone_time.hpp"

#include <date/date.h>
#include <fmt/format.h>

#include <cstdlib>

#include "asking/zone_fault.hpp"
#include "desk/checks.hpp"
#include "fogwright/machine.hpp"

namespace fogwright {
namespace {

constexpr std::int64_t second_ms = 1'000;

/// What the machine says of a zone; one that it does not know ends the command.
template <class T>
T known(Result<std::optional<T>> answer, const std::string& zone) {
  if (!answer) no_zones(answer.error());
  if (!*answer)
    no_zones({ErrorCode::file_fault,
              fmt::format("this system does not know the time zone {}", zone),
              {},
              "install the time zones of the system (tzdata)"});
  return std::move(**answer);
}

std::int64_t utc_ms(const std::string& zone, date::local_seconds local, bool later) {
  return known(zone_utc(zone, local.time_since_epoch().count(), later), zone) * second_ms;
}

date::local_days day_of(int year, int month, int day) {
  return date::local_days{date::year{year} / month / day};
}

std::string date_text(const ZoneClock& clock) {
  return fmt::format("{:04}-{:02}-{:02}", clock.year, clock.month, clock.day);
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
  const auto found = zone_offset(zone, 0);
  if (!found) return tl::make_unexpected(found.error());
  if (!zone.empty() && *found) return {};
  return fail(ErrorCode::not_understood, fmt::format("\"{}\" is no time zone that this system knows", zone),
              "--zone", "write e.g. --zone America/Chicago");
}

ZoneClock zone_clock(const std::string& zone, std::int64_t ms) {
  const auto utc = date::floor<std::chrono::seconds>(std::chrono::milliseconds{ms});
  ZoneOffset offset = known(zone_offset(zone, utc.count()), zone);
  const date::local_seconds local{utc + std::chrono::seconds{offset.seconds}};
  const auto day = date::floor<date::days>(local);
  const date::year_month_day civil{day};
  const date::hh_mm_ss<std::chrono::seconds> time{local - day};
  return {static_cast<int>(civil.year()),
          static_cast<int>(static_cast<unsigned>(civil.month())),
          static_cast<int>(static_cast<unsigned>(civil.day())),
          static_cast<int>(time.hours().count()),
          static_cast<int>(time.minutes().count()),
          static_cast<int>(time.seconds().count()),
          offset.seconds,
          std::move(offset.abbreviation)};
}

LocalDay local_day(const std::string& zone, std::int64_t ms) {
  const ZoneClock clock = zone_clock(zone, ms);
  return {date_text(clock), utc_ms(zone, day_of(clock.year, clock.month, clock.day), false)};
}

std::string local_time(const std::string& zone, std::int64_t ms) {
  const ZoneClock clock = zone_clock(zone, ms);
  return fmt::format("{} {:02}:{:02} {}", date_text(clock), clock.hour, clock.minute, clock.abbreviation);
}

std::string iso_time(const std::string& zone, std::int64_t ms) {
  const ZoneClock clock = zone_clock(zone, ms);
  const std::int64_t minutes = std::abs(clock.ahead_s) / 60;
  return fmt::format("{}T{:02}:{:02}:{:02}{}{:02}:{:02}", date_text(clock), clock.hour, clock.minute,
                     clock.second, clock.ahead_s < 0 ? '-' : '+', minutes / 60, minutes % 60);
}

Result<std::int64_t> read_local_time(const std::string& typed, const std::string& zone, bool later,
                                     const std::string& where) {
  const auto day = typed.size() == 16 && typed[10] == ' ' ? read_date(typed.substr(0, 10), "the day", where)
                                                          : fail(ErrorCode::not_understood, {});
  const auto minutes = day ? minutes_of_day(typed.substr(11)) : std::nullopt;
  if (!minutes)
    return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a time", typed), where,
                "write the time at the job's place, e.g. '2026-03-04 14:05'");
  const auto local =
      day_of(static_cast<int>(day->year()), static_cast<int>(static_cast<unsigned>(day->month())),
             static_cast<int>(static_cast<unsigned>(day->day())));
  return utc_ms(zone, local + *minutes, later);
}

}  // namespace fogwright
