// SPDX-License-Identifier: Apache-2.0
// The time zones of the browser, behind the functions of fogwright/machine.hpp.
#include <emscripten.h>

#include <algorithm>
#include <array>
#include <cstdlib>

#include "fogwright/machine.hpp"

namespace fogwright {
namespace {

// Local less UTC in seconds, NaN for a zone that is not known; the abbreviation ("CST") goes to `name`. Intl
// rounds down to the second, also before 1970.
EM_JS(double, browser_offset, (const char* zone, double utc_seconds, char* name, int size), {
  try {
    const id = UTF8ToString(zone);
    const formats = Module.zoneFormats || (Module.zoneFormats = new Map());
    if (!formats.has(id)) {
      if (!id) return NaN;
      formats.set(id, new Intl.DateTimeFormat("en-US", {
        timeZone : id,
        hourCycle : "h23",
        calendar : "gregory",
        numberingSystem : "latn",
        year : "numeric",
        month : "numeric",
        day : "numeric",
        hour : "numeric",
        minute : "numeric",
        second : "numeric",
        timeZoneName : "short"
      }));
    }
    const part = {};
    for (const one of formats.get(id).formatToParts(utc_seconds * 1000)) part[one.type] = one.value;
    stringToUTF8(part.timeZoneName, name, size);
    return Date.UTC(part.year, part.month - 1, part.day, part.hour % 24, part.minute, part.second) / 1000 -
           utc_seconds;
  } catch (fault) {
    return NaN;
  }
});

std::optional<ZoneOffset> offset_at(const std::string& zone, std::int64_t utc_seconds) {
  std::array<char, 64> name{};
  const double seconds = browser_offset(zone.c_str(), static_cast<double>(utc_seconds), name.data(),
                                        static_cast<int>(name.size()));
  if (seconds != seconds) return std::nullopt;
  return ZoneOffset{static_cast<std::int64_t>(seconds), name.data()};
}

constexpr std::int64_t day_s = 86'400;

/// The moment at which the offset changes from `before` to another one, between two moments.
std::int64_t change_between(const std::string& zone, std::int64_t from, std::int64_t to, std::int64_t before) {
  while (to - from > 1) {
    const std::int64_t middle = from + (to - from) / 2;
    const auto there = offset_at(zone, middle);
    (there && there->seconds == before ? from : to) = middle;
  }
  return to;
}

}  // namespace

Result<std::optional<ZoneOffset>> zone_offset(const std::string& zone, std::int64_t utc_seconds) {
  return offset_at(zone, utc_seconds);
}

Result<std::optional<std::int64_t>> zone_utc(const std::string& zone, std::int64_t local_seconds, bool later) {
  // No zone is more than a day off UTC, and clocks are not changed twice in two days.
  const auto before = offset_at(zone, local_seconds - day_s);
  const auto after = offset_at(zone, local_seconds + day_s);
  if (!before || !after) return std::nullopt;
  const std::int64_t early = local_seconds - before->seconds;
  const std::int64_t late = local_seconds - after->seconds;
  const auto holds = [&](std::int64_t utc) { return offset_at(zone, utc)->seconds == local_seconds - utc; };
  const bool early_holds = holds(early);
  const bool late_holds = holds(late);
  if (early_holds && late_holds) return later ? std::max(early, late) : std::min(early, late);
  if (early_holds) return early;
  if (late_holds) return late;
  return change_between(zone, local_seconds - day_s, local_seconds + day_s, before->seconds);  // a skipped time
}

}  // namespace fogwright
