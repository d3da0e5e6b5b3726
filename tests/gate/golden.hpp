// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Output that a person has reviewed. FOGWRIGHT_APPROVE=1 rewrites the files; read the difference before you
/// commit.

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

namespace fogwright::testing {

inline void check_golden(const std::string& path_in_tree, const std::string& now) {
  const std::string path = std::string(FOGWRIGHT_SOURCE_DIR) + "/" + path_in_tree;
  if (std::getenv("FOGWRIGHT_APPROVE")) std::ofstream(path, std::ios::binary) << now;
  std::ifstream in(path, std::ios::binary);
  std::ostringstream approved;
  approved << in.rdbuf();
  INFO("reviewed: " << path_in_tree << "; FOGWRIGHT_APPROVE=1 rewrites it");
  CHECK(now == approved.str());
}

}  // namespace fogwright::testing
