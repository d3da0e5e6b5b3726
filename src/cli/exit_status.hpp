// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/error.hpp"

namespace fogwright {

enum class ExitStatus { done = 0, refused = 1, usage = 2, bad_data = 3, system = 4 };

[[nodiscard]] ExitStatus exit_status(ErrorCode code) noexcept;

}  // namespace fogwright
