// SPDX-License-Identifier: Apache-2.0
#include "report/icalendar.hpp"

#include <catch2/catch.hpp>

using namespace fogwright;

namespace {

std::string unfolded(std::string text) {
  for (auto at = text.find("\r\n "); at != std::string::npos; at = text.find("\r\n ", at)) text.erase(at, 3);
  return text;
}

CalendarEvent last_day() {
  CalendarEvent event;
  event.uid = "container/C1@books.example/quillfen";
  event.summary = "C1 (fenmist-rtu, lot A1) in heron: last day";
  event.description = "Use it; or dispose of it.";
  event.category = "container";
  event.day = "2026-11-30";
  event.alarm_minutes = 14 * 1440 - 480;
  return event;
}

bool has_line(const std::string& text, const std::string& line) {
  return text.find("\r\n" + line + "\r\n") != std::string::npos;
}

}  // namespace

// RFC 5545, section 3.3.11, the example.
TEST_CASE("text is escaped as RFC 5545 shows it", "[calendar]") {
  CHECK(icalendar_escaped("Project XYZ Final Review\nConference Room - 3B\nCome Prepared.") ==
        "Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.");
  CHECK(icalendar_escaped("a\\b;c,d:e\r\nf\tg") == "a\\\\b\\;c\\,d:e\\nf g");
}

// RFC 5545, section 3.1: lines of at most 75 octets, the line break apart; unfolding gives the line back.
TEST_CASE("a long line is folded at 75 octets and unfolds to itself", "[calendar]") {
  const std::string exact = "DESCRIPTION:" + std::string(63, 'x');
  CHECK(icalendar_line(exact) == exact + "\r\n");
  for (const std::size_t length : {64U, 75U, 137U, 138U, 500U}) {
    const std::string line = "DESCRIPTION:" + std::string(length, 'x');
    const std::string folded = icalendar_line(line);
    CHECK(unfolded(folded) == line + "\r\n");
    for (std::size_t at = 0; at < folded.size();) {
      const std::size_t end = folded.find("\r\n", at);
      CHECK(end - at <= 75);
      at = end + 2;
    }
  }
}

// The note of the same section: a fold inside a character is what simple programs get wrong.
TEST_CASE("no fold goes through a character", "[calendar]") {
  for (std::size_t shift = 0; shift < 4; ++shift) {
    std::string line = "SUMMARY:" + std::string(shift, 'x');
    for (int i = 0; i < 60; ++i) line += "\xE2\x82\xAC";  // three octets each
    const std::string folded = icalendar_line(line);
    CHECK(unfolded(folded) == line + "\r\n");
    for (auto at = folded.find("\r\n "); at != std::string::npos; at = folded.find("\r\n ", at + 1))
      CHECK((static_cast<unsigned char>(folded[at + 3]) & 0xC0U) != 0x80U);
  }
}

// RFC 5545: 3.6.1 (DTSTART as a date is a whole day), 3.8.6.3 and 3.3.6 (triggers), 3.6.6 (what a DISPLAY alarm
// needs).
TEST_CASE("an event of a day has its parts", "[calendar]") {
  const std::string text = icalendar_text("Fogwright", 1'772'460'000'000, {last_day()});
  CHECK(text.starts_with("BEGIN:VCALENDAR\r\nVERSION:2.0\r\n"));
  CHECK(text.ends_with("END:VEVENT\r\nEND:VCALENDAR\r\n"));
  for (const char* line :
       {"UID:container/C1@books.example/quillfen", "DTSTAMP:20260302T140000Z", "DTSTART;VALUE=DATE:20261130",
        "SUMMARY:C1 (fenmist-rtu\\, lot A1) in heron: last day", "DESCRIPTION:Use it\\; or dispose of it.",
        "BEGIN:VALARM", "ACTION:DISPLAY", "TRIGGER:-P13DT16H"})
    CHECK(has_line(text, line));
}

TEST_CASE("a hold has an end and its alarm there", "[calendar]") {
  CalendarEvent hold = last_day();
  hold.day.clear();
  hold.from_ms = 1'772'460'000'000;
  hold.until_ms = hold.from_ms + 182 * 60'000;
  hold.alarm_minutes = 0;
  const std::string text = icalendar_text("Fogwright", 0, {hold});
  for (const char* line : {"DTSTART:20260302T140000Z", "DTEND:20260302T170200Z", "TRIGGER;RELATED=END:PT0S",
                           "TRANSP:OPAQUE", "DTSTAMP:19700101T000000Z"})
    CHECK(has_line(text, line));
}

// RFC 5545, section 3.6.6: "TRIGGER:-PT30M" is half an hour before, "-P2D" two days.
TEST_CASE("times before an event are durations of RFC 5545", "[calendar]") {
  for (const auto& [minutes, trigger] : {std::pair{30, "TRIGGER:-PT30M"},
                                         {2 * 1440, "TRIGGER:-P2D"},
                                         {60, "TRIGGER:-PT1H"},
                                         {90, "TRIGGER:-PT1H30M"}}) {
    CalendarEvent event = last_day();
    event.alarm_minutes = minutes;
    CHECK(has_line(icalendar_text("x", 0, {event}), trigger));
  }
}
