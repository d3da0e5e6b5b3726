// SPDX-License-Identifier: Apache-2.0
#pragma once

/// A plan that a device made by itself, held against what this program makes of the same request: the device
/// may run an older one. Where they differ the book says so, and the more cautious of both stands.

#include <nlohmann/json.hpp>
#include <optional>

#include "fogwright/book/documents.hpp"

namespace fogwright {

/// The body of plan-checked (docs/entries.md) for the body of a job-planned; nullopt where both plans are the
/// same. Looks at the body alone and at the text of its label, so it may come before or after the entry is
/// folded.
[[nodiscard]] std::optional<nlohmann::json> check_plan(const Documents& documents,
                                                       const nlohmann::json& planned);

/// The longer hold, the shorter dose, the lower limit, and the items of both. `begun`: fog was let out, so the
/// dose stays what it was.
[[nodiscard]] nlohmann::json more_cautious(nlohmann::json plan, const nlohmann::json& other, bool begun);

}  // namespace fogwright
