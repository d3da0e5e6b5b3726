// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fogwright/label.hpp"
#include "golden.hpp"

namespace fogwright::test {

inline const std::vector<std::string> demo_names = {"brackwater-20", "fenmist-rtu", "palelight-hp"};

inline std::string demo_text(const std::string& name) {
  return read_file(root / "product_profiles_demo" / (name + ".toml"));
}

inline Label demo_label(const std::string& name) {
  auto label = read_label(demo_text(name), name);
  REQUIRE(label.has_value());
  return *label;
}

/// The text with the one occurrence of `before` replaced.
inline std::string edited(std::string text, std::string_view before, std::string_view after) {
  const auto at = text.find(before);
  CAPTURE(before);
  REQUIRE(at != std::string::npos);
  REQUIRE(text.find(before, at + 1) == std::string::npos);
  return text.replace(at, before.size(), after);
}

}  // namespace fogwright::test
