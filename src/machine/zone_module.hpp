// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <cstdint>

namespace fogwright {

/// The functions of the module of zones, in C. They return 0, or 1 where the zone is not known.
using ZoneOffsetFunction = int(const char* zone, std::int64_t utc_seconds, std::int64_t* offset_seconds,
                               char* abbreviation, std::size_t abbreviation_size);
using ZoneUtcFunction = int(const char* zone, std::int64_t local_seconds, int later, std::int64_t* utc_seconds);
inline constexpr auto zone_offset_name = "fogwright_zone_offset_1";
inline constexpr auto zone_utc_name = "fogwright_zone_utc_1";

}  // namespace fogwright
