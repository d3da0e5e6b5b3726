// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What the words on a cartridge cover.

#include <span>
#include <string>
#include <string_view>

namespace fogwright {

inline constexpr std::string_view best_filter = "P100";

/// Whether any part of the words ("organic vapor/P100") names a particulate filter.
[[nodiscard]] bool covers_particulates(std::string_view cartridge_words);
/// Whether any part of the words names something other than a particulate filter.
[[nodiscard]] bool covers_gas(std::string_view cartridge_words);

/// cartridge_colour() of what all of them cover together.
[[nodiscard]] std::string_view colour_of_all(std::span<const std::string> cartridges);

/// "organic vapor + P100"
[[nodiscard]] std::string joined(std::span<const std::string> words, std::string_view between);

}  // namespace fogwright
