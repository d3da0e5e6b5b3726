// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.hpp"

namespace fogwright {

[[nodiscard]] std::vector<OptionRow> mix_options();
[[nodiscard]] Outcome run_mix(const Call& call);
[[nodiscard]] std::vector<OptionRow> route_options();
[[nodiscard]] Outcome run_route(const Call& call);
[[nodiscard]] std::vector<OptionRow> calibrate_options();
[[nodiscard]] Outcome run_calibrate(const Call& call);

}  // namespace fogwright
