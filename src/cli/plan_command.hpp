// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.hpp"

namespace fogwright {

[[nodiscard]] std::vector<OptionRow> plan_options();
[[nodiscard]] Outcome run_plan(const Call& call);

/// Reads options (and the site file and limits they name) into a request with its label.
[[nodiscard]] tl::expected<PlanRequest, Faults> plan_request_from(const Call& call);
/// The same, for a caller that knows the label.
[[nodiscard]] tl::expected<PlanRequest, Faults> plan_request_without_label(const Call& call);

}  // namespace fogwright
