// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Words about a job that several commands print.

#include <nlohmann/json.hpp>
#include <string>

#include "fogwright/desk/job.hpp"

namespace fogwright {

/// The rule of an item with its words filled in; "item" itself for one that this program does not know.
[[nodiscard]] std::string item_words(const nlohmann::json& job, const std::string& item);
/// "A lesser one lets too much through. (29 CFR 1910.134(d)(3)(i))"
[[nodiscard]] std::string item_reason(const std::string& item);

/// "2 h 13 min 05 s"; rounded up to the second.
[[nodiscard]] std::string countdown_words(std::int64_t ms);
/// How the hold stands, in one sentence, with the time it ends at the job's place.
[[nodiscard]] std::string hold_words(const nlohmann::json& job, const HoldState& hold, std::int64_t now_ms);
/// What to do next, in one sentence.
[[nodiscard]] std::string next_words(const nlohmann::json& job);

}  // namespace fogwright
