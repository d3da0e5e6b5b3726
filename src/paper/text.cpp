// SPDX-License-Identifier: Apache-2.0
#include "paper/text.hpp"

#include <algorithm>

namespace fogwright::paper {
namespace {

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

/// Bytes of the well-formed sequence at the start (RFC 3629, the syntax of section 4); 0 where there is none.
std::size_t sequence(std::string_view text) {
  const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
  const unsigned first = byte(0), second = byte(1);
  const std::size_t length = first < 0x80   ? 1
                             : first < 0xC2 ? 0
                             : first < 0xE0 ? 2
                             : first < 0xF0 ? 3
                             : first < 0xF5 ? 4
                                            : 0;
  if (length < 2) return length;
  const unsigned low = first == 0xE0 ? 0xA0 : first == 0xF0 ? 0x90 : 0x80;
  const unsigned high = first == 0xED ? 0x9F : first == 0xF4 ? 0x8F : 0xBF;
  if (second < low || second > high) return 0;
  for (std::size_t i = 2; i < length; ++i)
    if (i >= text.size() || !continues(text[i])) return 0;
  return length;
}

/// Control characters (C0 but for the line break, DEL, C1) and the two that XML 1.0 bars.
bool left_out(std::string_view letter) {
  const auto first = static_cast<unsigned char>(letter[0]);
  if (letter.size() == 1) return (first < 0x20 && first != '\n') || first == 0x7F;
  if (letter.size() == 2) return first == 0xC2 && static_cast<unsigned char>(letter[1]) < 0xA0;
  return letter == "\xEF\xBF\xBE" || letter == "\xEF\xBF\xBF";
}

}  // namespace

std::string clean(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const std::size_t length = sequence(text);
    if (length == 0)
      out += "\xEF\xBF\xBD";
    else if (text[0] == '\t')
      out += ' ';
    else if (!left_out(text.substr(0, length)))
      out += text.substr(0, length);
    text.remove_prefix(std::max<std::size_t>(length, 1));
  }
  return out;
}

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : clean(text)) switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += c;
    }
  return out;
}

std::size_t letters(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return !continues(c); }));
}

std::string_view first_letters(std::string_view text, std::size_t count) {
  std::size_t at = 0;
  while (at < text.size() && (count > 0 || continues(text[at])))
    if (!continues(text[at++])) --count;
  return text.substr(0, at);
}

}  // namespace fogwright::paper
