// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.hpp"
#include "fogwright/desk/replan.hpp"

namespace fogwright {

[[nodiscard]] std::vector<OptionRow> plan_options();
[[nodiscard]] Outcome run_plan(const Call& call);

/// Reads options (and the site file and limits they name) into a request with its label.
[[nodiscard]] tl::expected<PlanRequest, Faults> plan_request_from(const Call& call);

/// What was typed, with the text of the files that it names (`request` in docs/entries.md), and how faults name
/// its parts.
struct TypedRequest {
  nlohmann::json recorded;
  RequestPlaces places;
};
[[nodiscard]] Result<TypedRequest> typed_request(const Call& call);

}  // namespace fogwright
