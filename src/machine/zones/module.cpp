// SPDX-License-Identifier: Apache-2.0
#include <date/tz.h>

#include <algorithm>

#include "machine/zone_module.hpp"

namespace {

using std::chrono::seconds;

const date::time_zone* find_zone(const char* zone) {
  try {
    return date::locate_zone(zone);
  } catch (const std::exception&) {
    return nullptr;
  }
}

}  // namespace

// Nothing may be thrown across these.
#define FOGWRIGHT_EXPORT extern "C" __attribute__((visibility("default")))

FOGWRIGHT_EXPORT int fogwright_zone_offset_1(const char* zone, std::int64_t utc_seconds,
                                             std::int64_t* offset_seconds, char* abbreviation,
                                             std::size_t abbreviation_size) {
  const auto* const tz = find_zone(zone);
  if (tz == nullptr || abbreviation_size == 0) return 1;
  const auto info = tz->get_info(date::sys_seconds{seconds{utc_seconds}});
  *offset_seconds = info.offset.count();
  const std::size_t length = std::min(info.abbrev.size(), abbreviation_size - 1);
  std::copy_n(info.abbrev.begin(), length, abbreviation);
  abbreviation[length] = '\0';
  return 0;
}

FOGWRIGHT_EXPORT int fogwright_zone_utc_1(const char* zone, std::int64_t local_seconds, int later,
                                          std::int64_t* utc_seconds) {
  const auto* const tz = find_zone(zone);
  if (tz == nullptr) return 1;
  const auto utc = tz->to_sys(date::local_seconds{seconds{local_seconds}},
                              later != 0 ? date::choose::latest : date::choose::earliest);
  *utc_seconds = utc.time_since_epoch().count();
  return 0;
}

static_assert(std::is_same_v<decltype(fogwright_zone_offset_1), fogwright::ZoneOffsetFunction>);
static_assert(std::is_same_v<decltype(fogwright_zone_utc_1), fogwright::ZoneUtcFunction>);
