// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <string>

namespace fogwright {

/// A number drawn three lines high with half blocks, to be read at arm's length in the sun. All lines have the
/// same width.
[[nodiscard]] std::array<std::string, 3> big_digits(std::int64_t number);

}  // namespace fogwright
