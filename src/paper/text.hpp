// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace fogwright::paper {

/// The same words as valid UTF-8 without control characters (a line break stays): what neither XML nor a
/// typesetter chokes on.
[[nodiscard]] std::string clean(std::string_view text);
/// Cleaned, and safe between tags and inside quoted attributes.
[[nodiscard]] std::string escaped(std::string_view text);
/// Code points.
[[nodiscard]] std::size_t letters(std::string_view text);
/// The first `count` code points.
[[nodiscard]] std::string_view first_letters(std::string_view text, std::size_t count);

}  // namespace fogwright::paper
