// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "cli/outside.hpp"
#include "fogwright/store.hpp"

namespace fogwright {

/// A progress line on standard error, on a terminal only, once the work has taken a second.
[[nodiscard]] Progress progress_line(Outside& outside, std::string what);

}  // namespace fogwright
