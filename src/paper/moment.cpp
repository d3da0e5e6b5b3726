// SPDX-License-Identifier: Apache-2.0
#include "paper/moment.hpp"

#include <date/date.h>

#include "paper/words.hpp"

namespace fogwright::paper {
namespace {

date::year_month_day day_of(int year, int month, int day) { return date::year{year} / month / day; }

std::optional<int> figures(std::string_view text) {
  int value = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = 10 * value + (c - '0');
  }
  return value;
}

}  // namespace

std::string long_date(const LocalTime& time, Language language) {
  const auto day = day_of(time.year, time.month, time.day);
  if (!day.ok()) return fmt::format("{:04}-{:02}-{:02}", time.year, time.month, time.day);
  const auto weekday = static_cast<int>(date::weekday{date::sys_days{day}}.c_encoding());
  return word(language, Word::date_form, word_in(language, Word::weekdays, weekday),
              word_in(language, Word::months, time.month - 1), time.day, time.year);
}

std::string clock_time(const LocalTime& time, Language language, bool with_zone) {
  const int hour = (time.hour + 11) % 12 + 1;
  const std::string clock = language == Language::en
                                ? fmt::format("{}:{:02} {}", hour, time.minute, time.hour < 12 ? "AM" : "PM")
                                : fmt::format("{}:{:02}", time.hour, time.minute);
  return with_zone && !time.zone.empty() ? clock + " " + time.zone : clock;
}

std::string long_time(const LocalTime& time, Language language) {
  return word(language, Word::date_and_time, long_date(time, language), clock_time(time, language));
}

std::optional<int> day_number(std::string_view iso) {
  if (iso.size() != 10 || iso[4] != '-' || iso[7] != '-') return std::nullopt;
  const auto year = figures(iso.substr(0, 4)), month = figures(iso.substr(5, 2)),
             day = figures(iso.substr(8, 2));
  if (!year || !month || !day) return std::nullopt;
  const auto date = day_of(*year, *month, *day);
  if (!date.ok()) return std::nullopt;
  return static_cast<int>(date::sys_days{date}.time_since_epoch().count());
}

}  // namespace fogwright::paper
