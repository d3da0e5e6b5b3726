// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace fogwright::profile {

/// Why this valid UTF-8 can't stand as one line of a label: blank, too long (in characters), a line break, a
/// control character, or a mark that reorders what is shown. nullopt: it can.
[[nodiscard]] std::optional<std::string> complaint_about(std::string_view text, std::size_t longest);

}  // namespace fogwright::profile
