// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "desk/job_document.hpp"

namespace fogwright {

/// The part of the job's hold that nothing shortens.
[[nodiscard]] std::int64_t hold_floor_ms(const nlohmann::json& job);

/// A calendar and an uptime that differ by more than this within one boot: somebody set the clock.
inline constexpr std::int64_t clock_slack_ms = 2 * 60'000;
/// How far the calendar ran ahead of the uptime (minus: behind), within one boot; 0 across boots.
[[nodiscard]] std::int64_t clock_shift_ms(const Moment& from, const Moment& to) noexcept;
/// The next whole minute, where a hold's end or a release is told without seconds.
[[nodiscard]] std::int64_t up_to_minute(std::int64_t ms) noexcept;

}  // namespace fogwright
