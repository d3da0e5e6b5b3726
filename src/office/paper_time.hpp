// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "fogwright/paper/forms.hpp"

namespace fogwright {

/// A time at a job's place, for papers; rounded down to the minute.
[[nodiscard]] paper::LocalTime paper_time(const std::string& zone, std::int64_t ms);

}  // namespace fogwright
