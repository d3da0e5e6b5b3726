// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "fogwright/error.hpp"

namespace fogwright {

/// A TOML document as JSON, with the place of every value.
struct TomlTree {
  nlohmann::json value;
  std::map<std::string, std::string, std::less<>> places;  ///< JSON pointer to "file:line:column"

  /// The place of a value, or of the nearest table around it.
  [[nodiscard]] std::string where(std::string_view pointer) const;
};

/// Errors: bad_site with line and column (syntax; a date or time, which no member takes; a file over 1 MB).
[[nodiscard]] tl::expected<TomlTree, Faults> read_toml_tree(std::string_view text, std::string_view file);

}  // namespace fogwright
