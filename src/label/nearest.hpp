// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fogwright::profile {

/// The word of `known` that `typed` was most likely meant to be; nullopt when none is near.
[[nodiscard]] std::optional<std::string_view> nearest(std::string_view typed,
                                                      const std::vector<std::string_view>& known);

/// "a, b, c"
[[nodiscard]] std::string listed(const std::vector<std::string_view>& words);

/// What stood in the file, in quotes, shortened, without control characters: fit for a message.
[[nodiscard]] std::string in_quotes(std::string_view text);

}  // namespace fogwright::profile
