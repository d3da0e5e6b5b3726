// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>
#include <string_view>

#include "fogwright/label.hpp"

namespace fogwright {

/// The "label-facts" document (docs/entries.md): shelf life rounded down, storage range rounded inwards.
[[nodiscard]] nlohmann::json label_facts(const Label& label, std::string_view product);

/// Whether a respirator is worn to mix: the label's mixing gear lists one, or the product is a high-strength
/// oxidiser (common practice, no source).
[[nodiscard]] bool mixing_needs_respirator(const Label& label);

}  // namespace fogwright
