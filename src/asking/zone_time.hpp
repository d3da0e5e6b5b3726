// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Times as a job's place shows them. The record holds UTC.

#include <string>

#include "fogwright/desk/job.hpp"

namespace fogwright {

/// Errors: not_understood, where this system knows no such zone.
[[nodiscard]] Result<void> check_zone_name(const std::string& zone);

/// What clocks of a zone show at one moment.
struct ZoneClock {
  int year = 1970, month = 1, day = 1, hour = 0, minute = 0, second = 0;
  std::int64_t ahead_s = 0;  ///< of UTC
  std::string abbreviation;  ///< "CST"
};

// The zone of these must be known; else the system lacks its zones, which ends the command (zone_fault.hpp).
[[nodiscard]] ZoneClock zone_clock(const std::string& zone, std::int64_t ms);  // down to the second
[[nodiscard]] LocalDay local_day(const std::string& zone, std::int64_t ms);
/// "2026-03-04 14:05 CST"
[[nodiscard]] std::string local_time(const std::string& zone, std::int64_t ms);
/// "2026-03-04T14:05:09-06:00"
[[nodiscard]] std::string iso_time(const std::string& zone, std::int64_t ms);
/// "2026-03-04 14:05", in UTC milliseconds. Of two times that a set-back clock shows twice, the later one where
/// `later`. Errors: not_understood.
[[nodiscard]] Result<std::int64_t> read_local_time(const std::string& typed, const std::string& zone,
                                                   bool later, const std::string& where);

}  // namespace fogwright
