// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

namespace fogwright::profile {

/// toml++ 3.3 bounds how deep values nest, but not the parts of a dotted key, and takes its tables down by
/// recursion: a hostile key of a million parts would end the program. The first line (from 1) with more than
/// eight dots outside strings and comments, which no profile needs.
[[nodiscard]] std::optional<std::uint32_t> line_with_deep_key(std::string_view text);

}  // namespace fogwright::profile
