// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>

#include "fogwright/dose.hpp"

namespace fogwright {

/// What to measure out for a batch, in the label's order, with its gear and cautions.
[[nodiscard]] nlohmann::json mixing_json(const Label& label, const MixingSheet& sheet);

}  // namespace fogwright
