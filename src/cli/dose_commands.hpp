// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.hpp"
#include "fogwright/dose.hpp"

namespace fogwright {

[[nodiscard]] std::vector<OptionRow> mix_options();
[[nodiscard]] Outcome run_mix(const Call& call);
[[nodiscard]] std::vector<OptionRow> route_options();
[[nodiscard]] Outcome run_route(const Call& call);
[[nodiscard]] std::vector<OptionRow> calibrate_options();
[[nodiscard]] Outcome run_calibrate(const Call& call);
/// "180 mL in 60 s" (or "180 mL / 60 s") of a --catch. Errors: not_understood.
[[nodiscard]] Result<CatchTest> read_catch(const std::string& typed);

}  // namespace fogwright
