// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <iosfwd>

#include "fogwright/error.hpp"

namespace fogwright {

enum class ExitStatus { done = 0, refused = 1, usage = 2, bad_data = 3, system = 4 };

[[nodiscard]] ExitStatus exit_status(ErrorCode code) noexcept;

/// Faults as a program tells them: each with its place and what to do next, wrapped to a width; or one JSON
/// object.
void print_faults(const Faults& faults, bool as_json, int width, std::ostream& out);

}  // namespace fogwright
