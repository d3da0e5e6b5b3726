// SPDX-License-Identifier: Apache-2.0
#include <algorithm>

#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

constexpr std::string_view digits = "0123456789abcdef";

std::size_t digit(char c) { return digits.find(c >= 'A' && c <= 'F' ? static_cast<char>(c - 'A' + 'a') : c); }

}  // namespace

std::string to_hex(std::string_view bytes) {
  std::string text;
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    text += digits[byte >> 4U];
    text += digits[byte & 15U];
  }
  return text;
}

Result<std::string> from_hex(std::string_view text) {
  const bool hexadecimal =
      std::all_of(text.begin(), text.end(), [](char c) { return digit(c) != std::string_view::npos; });
  if (!hexadecimal || text.size() % 2 != 0)
    return fail(ErrorCode::not_understood, "this is not hexadecimal", {},
                "give an even number of digits 0-9 a-f");
  std::string bytes;
  for (std::size_t i = 0; i < text.size(); i += 2)
    bytes += static_cast<char>(digit(text[i]) << 4U | digit(text[i + 1]));
  return bytes;
}

}  // namespace fogwright
