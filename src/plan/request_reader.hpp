// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/plan.hpp"
#include "plan/table_reader.hpp"

namespace fogwright {

/// Whether a number without a unit may stand for sq ft (area) or ft (ceiling), as on the command line.
enum class BareNumbers { refused, us_customary };

/// Reads the members of a request (docs/site-file.md). `place` translates a JSON pointer to what the user sees.
[[nodiscard]] tl::expected<PlanRequest, Faults> read_request_members(
    const nlohmann::json& request, BareNumbers bare, const std::function<Place(const std::string&)>& place);

}  // namespace fogwright
