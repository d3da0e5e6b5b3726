// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "desk/job_document.hpp"

namespace fogwright {

/// "2 items are open: everyone-out (not met yet); fit-test (...)".
[[nodiscard]] std::string missing_words(const std::vector<Missing>& missing);
[[nodiscard]] Error gate_error(const nlohmann::json& job, const std::vector<Missing>& missing);
[[nodiscard]] nlohmann::json missing_json(const std::vector<Missing>& missing);

/// Products drawn for the job that must not meet the job's own; empty where there are none. Errors:
/// incompatible_chemistry.
[[nodiscard]] Result<void> products_may_meet(const Documents& documents, const nlohmann::json& job);

}  // namespace fogwright
