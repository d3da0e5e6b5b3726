// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "fogwright/label.hpp"

namespace fogwright::test {

inline const std::filesystem::path root = FOGWRIGHT_SOURCE_DIR;
inline const std::vector<std::string> demo_names = {"brackwater-20", "fenmist-rtu", "palelight-hp"};

inline std::string read_file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  INFO(path.string());
  REQUIRE(in.good());
  return {std::istreambuf_iterator<char>(in), {}};
}

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

/// Compares with a reviewed file. FOGWRIGHT_APPROVE=1 in the environment writes the file instead: look at the
/// difference before it is committed.
inline void check_golden(const std::filesystem::path& path, const std::string& text) {
  if (std::getenv("FOGWRIGHT_APPROVE") != nullptr) std::ofstream(path, std::ios::binary) << text;
  INFO(path.string());
  CHECK(read_file(path) == text);
}

}  // namespace fogwright::test
