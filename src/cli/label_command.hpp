// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.hpp"

namespace fogwright {

[[nodiscard]] Outcome run_label_check(const Call& call);
[[nodiscard]] Outcome run_label_show(const Call& call);
[[nodiscard]] Outcome run_label_list(const Call& call);

}  // namespace fogwright
