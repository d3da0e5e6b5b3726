// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

/// Reference tables in tests/data, kept as published. A file that is missing or holds no row is a fault and
/// throws.
namespace fogwright::testing {

using Row = std::vector<std::string>;

/// The lines of tests/data/NAME that are neither empty nor a comment behind '#'.
inline std::vector<std::string> table_lines(const std::string& name) {
  std::ifstream in(std::string(FOGWRIGHT_SOURCE_DIR) + "/tests/data/" + name);
  std::vector<std::string> lines;
  for (std::string line; std::getline(in, line);)
    if (!line.empty() && line[0] != '#') lines.push_back(line);
  if (lines.empty()) throw std::runtime_error("no rows in tests/data/" + name);
  return lines;
}

/// The words of each line.
inline std::vector<Row> word_rows(const std::string& name) {
  std::vector<Row> rows;
  for (const std::string& line : table_lines(name)) {
    std::istringstream words(line);
    Row& row = rows.emplace_back();
    for (std::string word; words >> word;) row.push_back(word);
  }
  return rows;
}

inline Row split_row(const std::string& line) {
  Row cells;
  std::size_t from = 0;
  for (std::size_t bar = 0; bar != std::string::npos; from = bar + 3) {
    bar = line.find(" | ", from);
    cells.push_back(line.substr(from, bar - from));
  }
  return cells;
}

/// The cells between " | " of each line. A row of another width is a fault of the file and throws.
inline std::vector<Row> table_rows(const std::string& name, std::size_t width) {
  std::vector<Row> rows;
  for (const std::string& line : table_lines(name)) {
    rows.push_back(split_row(line));
    if (rows.back().size() != width) throw std::runtime_error(name + ": wrong number of cells in: " + line);
  }
  return rows;
}

}  // namespace fogwright::testing
