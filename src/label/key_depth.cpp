// SPDX-License-Identifier: Apache-2.0
#include "label/key_depth.hpp"

#include <algorithm>

namespace fogwright::profile {
namespace {

constexpr int most_dots = 8;

/// A multi-line string may end with up to two quotes of its own before the three that close it.
std::size_t past_quotes(std::string_view text, std::size_t i, char quote) {
  for (int extra = 0; extra < 2 && i < text.size() && text[i] == quote; ++extra) ++i;
  return i;
}

/// Index just past the string that opens at `begin`; a string that is not closed ends with its line.
std::size_t past_string(std::string_view text, std::size_t begin) {
  const char quote = text[begin];
  const bool escapes = quote == '"';
  const bool multiline = begin + 2 < text.size() && text[begin + 1] == quote && text[begin + 2] == quote;
  std::size_t i = begin + (multiline ? 3 : 1);
  for (; i < text.size(); ++i) {
    if (escapes && text[i] == '\\' && text.substr(i + 1, 1) != "\n") {
      ++i;
    } else if (multiline) {
      if (text.substr(i, 3) == text.substr(begin, 3)) return past_quotes(text, i + 3, quote);
    } else if (text[i] == quote) {
      return i + 1;
    } else if (text[i] == '\n') {
      return i;
    }
  }
  return text.size();
}

}  // namespace

std::optional<std::uint32_t> line_with_deep_key(std::string_view text) {
  std::uint32_t line = 1;
  int dots = 0;
  for (std::size_t i = 0; i < text.size();) {
    const char c = text[i];
    if (c == '"' || c == '\'') {
      const std::size_t end = past_string(text, i);
      for (; i < end; ++i) line += text[i] == '\n' ? 1 : 0;
      continue;
    }
    if (c == '#') {
      i = std::min(text.find('\n', i), text.size());
      continue;
    }
    if (c == '.' && ++dots > most_dots) return line;
    if (c == '\n') {
      ++line;
      dots = 0;
    }
    ++i;
  }
  return std::nullopt;
}

}  // namespace fogwright::profile
