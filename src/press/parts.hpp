// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What the papers of a job share.

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "fogwright/press.hpp"
#include "paper/words.hpp"

namespace fogwright::press {

/// The customer and the address of a job. Words of the language where nobody gave one; empty where it was
/// erased.
struct Site {
  std::string customer, address;
};
[[nodiscard]] Site site_of(const Source& source, const nlohmann::json& job);

/// A job with the label that it was planned with. Errors: not_found.
struct JobAndLabel {
  nlohmann::json job;
  Label label;
};
[[nodiscard]] Result<JobAndLabel> job_and_label(const Source& source, const std::string& job);

/// The signed checkpoint that covers the last entry of a job, with the proof; nullopt where none does.
[[nodiscard]] Result<std::optional<paper::Proof>> proof_of(const Source& source, const nlohmann::json& job);

[[nodiscard]] paper::LocalTime local(const Source& source, const nlohmann::json& job, std::int64_t ms);
/// "2026-03-04 14:05 CST"; without the zone where many stand below one another.
[[nodiscard]] std::string time_words(const paper::LocalTime& time, bool with_zone = true);

/// The word of a list of words (states, severities, ...) that stands where `name` stands in the English one.
[[nodiscard]] std::string translated(paper::Language language, paper::Word line, std::string_view name);

}  // namespace fogwright::press
