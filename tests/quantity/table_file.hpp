// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace fogwright::testing {

using Row = std::vector<std::string>;

inline Row split_row(const std::string& line) {
  Row cells;
  std::size_t from = 0;
  for (std::size_t bar = 0; bar != std::string::npos; from = bar + 3) {
    bar = line.find(" | ", from);
    cells.push_back(line.substr(from, bar - from));
  }
  return cells;
}

/// The rows of tests/data/NAME: cells between " | ", comments behind '#'. A row of another width is a fault of
/// the file and throws.
inline std::vector<Row> table_rows(const std::string& name, std::size_t width) {
  std::ifstream in(std::string(FOGWRIGHT_SOURCE_DIR) + "/tests/data/" + name);
  if (!in) throw std::runtime_error("cannot open tests/data/" + name);
  std::vector<Row> rows;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line[0] == '#') continue;
    rows.push_back(split_row(line));
    if (rows.back().size() != width) throw std::runtime_error(name + ": wrong number of cells in: " + line);
  }
  return rows;
}

}  // namespace fogwright::testing
