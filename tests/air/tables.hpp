// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

/// The words of each row of a published table in tests/data, without its comments.
inline std::vector<std::vector<std::string>> table_rows(const std::string& name) {
  std::ifstream file(std::string(FOGWRIGHT_SOURCE_DIR "/tests/data/") + name);
  if (!file) throw std::runtime_error("no table " + name);
  std::vector<std::vector<std::string>> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    std::istringstream words(line);
    auto& row = rows.emplace_back();
    for (std::string word; words >> word;) row.push_back(word);
  }
  return rows;
}
