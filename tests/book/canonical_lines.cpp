// SPDX-License-Identifier: Apache-2.0
// canonical_lines: reads one JSON value a line and prints its canonical form, for check_json.js to compare.
#include <iostream>
#include <string>

#include "fogwright/book/canonical_json.hpp"

int main() {
  std::ios::sync_with_stdio(false);
  for (std::string line; std::getline(std::cin, line);) {
    std::cout << fogwright::read_strict_json(line).and_then(fogwright::canonical_json).value_or("refused")
              << '\n';
  }
}
