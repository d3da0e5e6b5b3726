// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

namespace fogwright::bundle {

/// README.txt of a bundle: what is in it, how to check it without us, what that shows and what not.
[[nodiscard]] std::string readme(const std::string& origin, std::size_t entries, std::uint64_t size,
                                 bool cosigned, bool with_private);

}  // namespace fogwright::bundle
