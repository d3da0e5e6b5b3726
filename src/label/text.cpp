// SPDX-License-Identifier: Apache-2.0
#include "label/text.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace fogwright::profile {
namespace {

/// The next character of valid UTF-8, which is cut off the front.
char32_t next(std::string_view& text) {
  const auto first = static_cast<unsigned char>(text.front());
  text.remove_prefix(1);
  if (first < 0x80) return first;
  char32_t c = first < 0xE0 ? first & 0x1FU : first < 0xF0 ? first & 0x0FU : first & 0x07U;
  while (!text.empty() && (static_cast<unsigned char>(text.front()) & 0xC0U) == 0x80U) {
    c = (c << 6U) | (static_cast<unsigned char>(text.front()) & 0x3FU);
    text.remove_prefix(1);
  }
  return c;
}

bool is_control(char32_t c) { return c < 0x20 || (c >= 0x7F && c < 0xA0) || c == 0x2028 || c == 0x2029; }

/// Marks, overrides and isolates of the bidirectional algorithm (Unicode UAX #9): they make a statement show as
/// another.
bool reorders(char32_t c) {
  return c == 0x200E || c == 0x200F || c == 0x061C || (c >= 0x202A && c <= 0x202E) ||
         (c >= 0x2066 && c <= 0x2069);
}

}  // namespace

std::optional<std::string> complaint_about(std::string_view text, std::size_t longest) {
  std::size_t count = 0;
  bool blank = true;
  for (std::string_view rest = text; !rest.empty(); ++count) {
    const char32_t c = next(rest);
    if (c == '\n' || c == '\r') return "the text runs over several lines; write it on one line";
    if (is_control(c) || reorders(c))
      return fmt::format("the text holds the invisible character U+{:04X}; delete it",
                         static_cast<std::uint32_t>(c));
    blank = blank && c == ' ';
  }
  if (blank) return "the text is empty";
  if (count > longest) return fmt::format("the text has {} characters, at most {} are kept", count, longest);
  return std::nullopt;
}

}  // namespace fogwright::profile
