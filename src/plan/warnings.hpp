// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/plan.hpp"

namespace fogwright {

/// What a person must know about this plan, gravest first.
[[nodiscard]] std::vector<Warning> warnings_for(const PlanRequest& request, const Plan& plan);

}  // namespace fogwright
