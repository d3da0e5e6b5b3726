// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

/// Files of the source tree, and output that a person has reviewed.
namespace fogwright::test {

inline const std::filesystem::path root = FOGWRIGHT_SOURCE_DIR;

inline std::string read_file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  INFO(path.string());
  REQUIRE(in.good());
  return {std::istreambuf_iterator<char>(in), {}};
}

/// Compares with a reviewed file; a relative path starts at the root of the tree. FOGWRIGHT_APPROVE=1 in the
/// environment writes the file instead: read the difference before it is committed.
inline void check_golden(const std::filesystem::path& path, const std::string& now) {
  const std::filesystem::path file = root / path;
  if (std::getenv("FOGWRIGHT_APPROVE") != nullptr) std::ofstream(file, std::ios::binary) << now;
  INFO("reviewed: " << file.string() << "; FOGWRIGHT_APPROVE=1 rewrites it");
  CHECK(now == read_file(file));
}

}  // namespace fogwright::test
