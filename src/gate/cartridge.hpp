// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What the words on a cartridge cover.

#include <string_view>

namespace fogwright {

inline constexpr std::string_view best_filter = "P100";

/// What cartridges cover together, by their words ("organic vapor/P100").
class Coverage {
 public:
  void add(std::string_view cartridge_words);
  /// Whether any part of the words names a particulate filter.
  [[nodiscard]] bool particulates() const;
  /// Whether any part of the words names something other than a particulate filter.
  [[nodiscard]] bool gas() const;
  /// cartridge_colour() of all of it.
  [[nodiscard]] std::string_view colour() const;

 private:
  unsigned parts_ = 0;
};

}  // namespace fogwright
