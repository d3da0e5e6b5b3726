// SPDX-License-Identifier: Apache-2.0
#pragma once

/// A plan from what a book recorded of it: what was typed, what the book knew of the fogger, and the text of
/// the label. So a job's air can be looked at again, long after it was planned. What the book recorded stays
/// the truth; where a newer program plans otherwise, the differences are named.

#include <map>
#include <string>
#include <vector>

#include "fogwright/book/documents.hpp"
#include "fogwright/plan.hpp"

namespace fogwright {

/// How faults name their place: options by JSON pointer, and the files that were read.
struct RequestPlaces {
  std::map<std::string, std::string> options;
  std::string site_file = "site file";
  std::vector<std::string> limits_files;
};
/// The `request` of job-planned (docs/entries.md), read: a plan request without its label. Errors: those of
/// read_site and read_limits.
[[nodiscard]] tl::expected<PlanRequest, Faults> read_recorded_request(const nlohmann::json& recorded,
                                                                      const RequestPlaces& places = {});

/// What the book knows of a fogger, for `request.fogger`: {tank_ul?, empty_mg?, test?}, the test being the
/// current one. Empty where there is no such fogger.
[[nodiscard]] nlohmann::json fogger_facts(const Documents& documents, const std::string& fogger);
/// Fills in what was not typed.
void add_fogger_facts(const nlohmann::json& facts, PlanRequest& request);

/// A job, planned again.
struct Replanned {
  PlanRequest request;
  Plan plan;
  std::int64_t recorded_hold_minutes = 0;
  std::int64_t hold_minutes = 0;         ///< the longer of the recorded one and the plan's; this one stands
  std::vector<std::string> differences;  ///< one sentence each; empty: as recorded
};
/// `job` is an id. Errors: not_found (no such job; its request or the text of its label is not in the book),
/// and those of make_plan.
[[nodiscard]] tl::expected<Replanned, Faults> replan(const Documents& documents, const std::string& job);

}  // namespace fogwright
