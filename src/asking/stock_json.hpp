// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>

#include "fogwright/desk/views.hpp"

namespace fogwright {

[[nodiscard]] nlohmann::json vessel_json(const VesselView& vessel);
[[nodiscard]] nlohmann::json stock_line_json(const StockLine& line);

}  // namespace fogwright
