// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>
#include <vector>

#include "fogwright/store.hpp"

namespace fogwright {

/// The departures that these entries raised, in order.
[[nodiscard]] nlohmann::json departures_json(const Documents& now, const std::vector<Receipt>& receipts);

}  // namespace fogwright
