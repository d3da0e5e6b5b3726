// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Times as a job's place shows them. The record holds UTC.

#include <string>

#include "fogwright/desk/job.hpp"
#include "fogwright/paper/forms.hpp"

namespace fogwright {

/// Errors: not_understood, where this system knows no such zone.
[[nodiscard]] Result<void> check_zone_name(const std::string& zone);

// The zone of these must be known; else the system lacks its zones, which ends the command (StorageFault).
[[nodiscard]] LocalDay local_day(const std::string& zone, std::int64_t ms);
/// "2026-03-04 14:05 CST"
[[nodiscard]] std::string local_time(const std::string& zone, std::int64_t ms);
/// "2026-03-04T14:05:09-06:00"
[[nodiscard]] std::string iso_time(const std::string& zone, std::int64_t ms);
/// For papers; rounded down to the minute.
[[nodiscard]] paper::LocalTime paper_time(const std::string& zone, std::int64_t ms);
/// "2026-03-04 14:05", in UTC milliseconds. Of two times that a set-back clock shows twice, the later one where
/// `later`. Errors: not_understood.
[[nodiscard]] Result<std::int64_t> read_local_time(const std::string& typed, const std::string& zone,
                                                   bool later, const std::string& where);

}  // namespace fogwright
