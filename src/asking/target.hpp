// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/error.hpp"

namespace fogwright {

/// A target taken apart: the segments of its path and the members of its query, percent-decoded.
struct Target {
  std::string path;  ///< as sent, for the log
  std::vector<std::string> segments;
  std::map<std::string, std::string> query;
};
/// Errors: not_understood (no leading slash, a bad percent code, "..", control characters, a member twice).
[[nodiscard]] Result<Target> read_target(std::string_view target);

/// Each part between separators.
[[nodiscard]] std::vector<std::string_view> split(std::string_view text, char separator);

}  // namespace fogwright
