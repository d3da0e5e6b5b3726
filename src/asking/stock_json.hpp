// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>

#include "fogwright/desk/views.hpp"

namespace fogwright {

[[nodiscard]] nlohmann::json vessel_json(const VesselView& vessel);
[[nodiscard]] nlohmann::json stock_line_json(const StockLine& line);
/// `cents`, `complete` and `draws`; the cents of a draw are null where its container has no price.
[[nodiscard]] nlohmann::json job_cost_json(const JobCost& cost);

}  // namespace fogwright
