// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.hpp"

namespace fogwright {

/// The rows of `fogwright book ...`, for the command table.
[[nodiscard]] std::vector<Command> book_commands();

}  // namespace fogwright
