// SPDX-License-Identifier: Apache-2.0
#include "office/paper_time.hpp"

#include "asking/zone_time.hpp"

namespace fogwright {

paper::LocalTime paper_time(const std::string& zone, std::int64_t ms) {
  ZoneClock clock = zone_clock(zone, ms);
  return {clock.year, clock.month, clock.day, clock.hour, clock.minute, std::move(clock.abbreviation)};
}

}  // namespace fogwright
