// SPDX-License-Identifier: Apache-2.0
#include "report/icalendar.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <chrono>

namespace fogwright {
namespace {

constexpr std::size_t longest_line = 75;  // octets, the line break not counted

/// "20260304T140500Z"
std::string utc_text(std::int64_t ms) {
  using namespace std::chrono;
  const auto at = floor<seconds>(sys_time<milliseconds>{milliseconds{ms}});
  const auto day = floor<days>(at);
  const year_month_day date{day};
  const hh_mm_ss time{at - day};
  return fmt::format("{:04}{:02}{:02}T{:02}{:02}{:02}Z", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                     time.hours().count(), time.minutes().count(), time.seconds().count());
}

/// "20260304" of "2026-03-04".
std::string date_text(std::string day) {
  day.erase(std::remove(day.begin(), day.end(), '-'), day.end());
  return day;
}

/// "-P13DT16H", "-PT30M", "PT0S": so long before.
std::string before_text(std::int64_t minutes) {
  if (minutes <= 0) return "PT0S";
  std::string text = "-P";
  if (minutes >= 1440) text += fmt::format("{}D", minutes / 1440);
  if (minutes % 1440 == 0) return text;
  text += 'T';
  if (minutes % 1440 >= 60) text += fmt::format("{}H", minutes % 1440 / 60);
  if (minutes % 60 != 0) text += fmt::format("{}M", minutes % 60);
  return text;
}

bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

class Lines {
 public:
  void plain(std::string_view line) { out_ += icalendar_line(line); }
  void text(std::string_view name, std::string_view value) {
    plain(fmt::format("{}:{}", name, icalendar_escaped(value)));
  }
  [[nodiscard]] std::string take() && { return std::move(out_); }

 private:
  std::string out_;
};

void write_alarm(Lines& lines, const CalendarEvent& event) {
  lines.plain("BEGIN:VALARM");
  lines.plain("ACTION:DISPLAY");
  lines.text("DESCRIPTION", event.summary);
  lines.plain(
      fmt::format("TRIGGER{}:{}", event.until_ms ? ";RELATED=END" : "", before_text(event.alarm_minutes)));
  lines.plain("END:VALARM");
}

void write_event(Lines& lines, std::int64_t stamp_ms, const CalendarEvent& event) {
  lines.plain("BEGIN:VEVENT");
  lines.text("UID", event.uid);
  lines.plain("DTSTAMP:" + utc_text(stamp_ms));
  if (event.day.empty())
    lines.plain("DTSTART:" + utc_text(event.from_ms));
  else
    lines.plain("DTSTART;VALUE=DATE:" + date_text(event.day));
  if (event.until_ms) lines.plain("DTEND:" + utc_text(*event.until_ms));
  lines.text("SUMMARY", event.summary);
  lines.text("DESCRIPTION", event.description);
  lines.text("CATEGORIES", event.category);
  lines.plain(event.until_ms ? "TRANSP:OPAQUE" : "TRANSP:TRANSPARENT");
  write_alarm(lines, event);
  lines.plain("END:VEVENT");
}

}  // namespace

std::string icalendar_escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '\\' || c == ';' || c == ',') out += '\\';
    if (c == '\n')
      out += "\\n";
    else if (c != '\r')
      out += static_cast<unsigned char>(c) < 0x20 || c == 0x7f ? ' ' : c;
  }
  return out;
}

std::string icalendar_line(std::string_view line) {
  std::string out;
  std::size_t room = longest_line;
  while (line.size() > room) {
    std::size_t cut = room;
    while (cut > 1 && continues_character(line[cut])) --cut;
    out.append(line.substr(0, cut)).append("\r\n ");
    line.remove_prefix(cut);
    room = longest_line - 1;  // the space that opens a continuation counts
  }
  return out.append(line).append("\r\n");
}

std::string icalendar_text(std::string_view name, std::int64_t stamp_ms,
                           const std::vector<CalendarEvent>& events) {
  Lines lines;
  lines.plain("BEGIN:VCALENDAR");
  lines.plain("VERSION:2.0");
  lines.plain("PRODID:-//fogwright//calendar//EN");
  lines.plain("CALSCALE:GREGORIAN");
  lines.plain("METHOD:PUBLISH");
  lines.text("X-WR-CALNAME", name);
  for (const CalendarEvent& event : events) write_event(lines, stamp_ms, event);
  lines.plain("END:VCALENDAR");
  return std::move(lines).take();
}

}  // namespace fogwright
