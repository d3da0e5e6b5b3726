// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <ostream>

#include "cli/desk_call.hpp"
#include "cli/desk_commands.hpp"
#include "cli/printing.hpp"
#include "fogwright/desk/due.hpp"
#include "report/icalendar.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr double usual_days = 365;
constexpr double most_days = 3650;

/// How long before its time the reminder comes (company policy): eight in the morning so many days ahead for
/// what has a last day, an hour for a batch, half an hour for a visit, the very end of a hold.
std::int64_t alarm_minutes(DueKind kind) {
  constexpr std::int64_t day = 24 * 60;
  switch (kind) {
    case DueKind::container:
      return 14 * day - 8 * 60;
    case DueKind::credential:
      return 30 * day - 8 * 60;
    case DueKind::batch:
      return 60;
    case DueKind::visit:
      return 30;
    case DueKind::hold:
      return 0;
  }
  return 0;
}

CalendarEvent event_of(const Due& due, const std::string& origin) {
  return {fmt::format("{}/{}@{}", due_name(due.kind), due.key, origin),
          due.summary,
          due.detail,
          std::string(due_name(due.kind)),
          due.day,
          due.from_ms,
          due.until_ms,
          alarm_minutes(due.kind)};
}

json event_json(const CalendarEvent& event) {
  json out = {
      {"uid", event.uid}, {"kind", event.category}, {"summary", event.summary}, {"detail", event.description}};
  if (event.day.empty())
    out["from_ms"] = event.from_ms;
  else
    out["day"] = event.day;
  if (event.until_ms) out["until_ms"] = *event.until_ms;
  return out;
}

Outcome print_calendar(const Call& call, const std::string& origin, const std::vector<CalendarEvent>& events) {
  if (call.format != Format::text) {
    json list = json::array();
    for (const CalendarEvent& event : events) list.push_back(event_json(event));
    print_shown(call, {{"events", std::move(list)}}, Page(call.style));
    return {};
  }
  const std::string text = icalendar_text(fmt::format("Fogwright: {}", origin), call.outside.now_ms(), events);
  if (const auto target = call.options.text("out")) {
    if (auto written = write_new_file(*target, text); !written) return refuse(written.error());
    call.outside.out << fmt::format("events written to {1}: {0}\n", events.size(), *target);
  } else {
    call.outside.out << text;
  }
  return {};
}

Outcome run_calendar(const Call& call) {
  OptionReader options(call);
  const double days = options.number("days", usual_days);
  if (options.fault()) return refuse(*options.fault());
  if (days < 1 || days > most_days)
    return refuse({ErrorCode::out_of_range, "that is not 1 day to ten years ahead", "--days", "write e.g. 90"});
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  const std::string origin = (*store)->origin();
  std::vector<CalendarEvent> events;
  (*store)->read([&](const Documents& now, const Head&) {
    const Moment moment{call.outside.now_ms(), call.outside.boot_clock()};
    for (const Due& due : due_within(now, moment, static_cast<int>(days)))
      events.push_back(event_of(due, origin));
  });
  return print_calendar(call, origin, events);
}

}  // namespace

std::vector<Command> calendar_commands() {
  return {{"calendar",
           "",
           "",
           "what falls due, as a calendar (iCalendar) to subscribe to or take in",
           with_book_options({{"days", "DAYS", "so many days ahead (default 365)"},
                              {"out", "FILE", "write to a new file instead of the output"}}),
           run_calendar,
           "fogwright calendar --days 90 > due.ics",
           {"events", {"kind", "day", "from_utc", "until_utc", "summary", "detail", "uid"}}}};
}

}  // namespace fogwright
