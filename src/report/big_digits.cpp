// SPDX-License-Identifier: Apache-2.0
#include "report/big_digits.hpp"

#include <string_view>

namespace fogwright {
namespace {

/// Three columns by six rows a digit, the last row empty; # is ink.
constexpr std::array<std::string_view, 10> glyphs = {
    "###"
    "#.#"
    "#.#"
    "#.#"
    "###"
    "...",
    ".#."
    "##."
    ".#."
    ".#."
    "###"
    "...",
    "###"
    "..#"
    "###"
    "#.."
    "###"
    "...",
    "###"
    "..#"
    "###"
    "..#"
    "###"
    "...",
    "#.#"
    "#.#"
    "###"
    "..#"
    "..#"
    "...",
    "###"
    "#.."
    "###"
    "..#"
    "###"
    "...",
    "###"
    "#.."
    "###"
    "#.#"
    "###"
    "...",
    "###"
    "..#"
    "..#"
    "..#"
    "..#"
    "...",
    "###"
    "#.#"
    "###"
    "#.#"
    "###"
    "...",
    "###"
    "#.#"
    "###"
    "..#"
    "###"
    "..."};

std::string_view half_blocks(bool upper, bool lower) {
  if (upper) return lower ? "█" : "▀";
  return lower ? "▄" : " ";
}

}  // namespace

std::array<std::string, 3> big_digits(std::int64_t number) {
  std::array<std::string, 3> lines;
  for (char c : std::to_string(number)) {
    if (c < '0' || c > '9') continue;
    const std::string_view glyph = glyphs[static_cast<std::size_t>(c - '0')];
    for (std::size_t line = 0; line < lines.size(); ++line) {
      if (!lines[line].empty()) lines[line] += ' ';
      for (std::size_t column = 0; column < 3; ++column)
        lines[line] += half_blocks(glyph[line * 6 + column] == '#', glyph[line * 6 + 3 + column] == '#');
    }
  }
  return lines;
}

}  // namespace fogwright
