// SPDX-License-Identifier: Apache-2.0
#pragma once

/// More fog than the plan reckoned with at most: the hold follows what was really let out.

#include <optional>

#include "desk/job_document.hpp"

namespace fogwright {

/// What was let out for all that is known: the larger of what was measured and what the time says.
[[nodiscard]] std::int64_t let_out_ul(const nlohmann::json& job, std::int64_t used_ul);
/// `{hold_minutes, limits}` of the job, planned again for that volume; nullopt where the plan covers it. Where
/// it cannot be planned again, the times grow with the volume, and readings are needed.
[[nodiscard]] std::optional<nlohmann::json> hold_of_more_fog(const Documents& documents,
                                                             const nlohmann::json& job, std::int64_t used_ul);

}  // namespace fogwright
