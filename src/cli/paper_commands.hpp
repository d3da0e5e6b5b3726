// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.hpp"

namespace fogwright {

/// The rows of `paper` in the table of commands.
[[nodiscard]] std::vector<Command> paper_commands();
/// `job chart`, `job compare`, `stock chart`.
[[nodiscard]] std::vector<Command> chart_commands();

}  // namespace fogwright
