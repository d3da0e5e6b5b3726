// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What a page asks, and what it is told: text in, JSON text out.

#include <string>
#include <string_view>

namespace fogwright {

/// Plans the request (docs/site-file.md, as JSON) with the product profile in label_toml. The answer is
/// {"plan": ...} or {"error": ...} (both docs/plan-json.md); the faults of request and label are told together.
/// The member `label` of the request is not looked at.
[[nodiscard]] std::string plan_answer(std::string_view request_json, std::string_view label_toml);

}  // namespace fogwright
