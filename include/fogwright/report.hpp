// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What people read: text for the terminal now; papers and charts stand beside it.

#include <string>
#include <string_view>

#include "fogwright/plan.hpp"

namespace fogwright {

struct TextStyle {
  int width = 80;       ///< columns; 32 at least
  bool colour = false;  ///< ANSI emphasis
  UnitSystem units = UnitSystem::us_customary;
};

/// What a technician reads in ten seconds: seconds at each return, load, hold, what was asked, respirator,
/// cautions, warnings.
[[nodiscard]] std::string plan_text(const Plan& plan, const TextStyle& style);
/// The same, then every input, formula, limit, source and assumption behind it.
[[nodiscard]] std::string plan_full_text(const PlanRequest& request, const Plan& plan, const TextStyle& style);

[[nodiscard]] std::string label_text(const Label& label, const TextStyle& style);
[[nodiscard]] std::string mixing_sheet_text(const Label& label, const MixingSheet& sheet,
                                            const TextStyle& style);
[[nodiscard]] std::string calibration_text(const Calibration& calibration, const TextStyle& style);
[[nodiscard]] std::string route_text(const Label& label, const RouteLoad& load, std::size_t jobs,
                                     const TextStyle& style);

}  // namespace fogwright
