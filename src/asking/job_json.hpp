// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "fogwright/desk/job.hpp"

namespace fogwright {

/// What is open before each stage of the job: list of {requirement, why, stage}. Once the fog is out, what was
/// open before it is a departure and no longer a question.
[[nodiscard]] nlohmann::json missing_json(const Documents& now, const nlohmann::json& job, std::int64_t now_ms);
/// How a hold stands: elapsed_ms, floor_ms, total_ms, readings_needed, may_release, words, why?.
[[nodiscard]] nlohmann::json hold_json(const nlohmann::json& job, const HoldState& hold, std::int64_t now_ms);
/// The document of a job with `missing`, and with `hold` while one runs. Errors: not_found.
[[nodiscard]] Result<nlohmann::json> job_json(const Documents& now, const std::string& id,
                                              const Moment& moment);
/// A line of a list of jobs: job, state, product, technician, planned_ms.
[[nodiscard]] nlohmann::json job_row(const std::string& id, const nlohmann::json& job);

}  // namespace fogwright
