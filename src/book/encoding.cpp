// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/encoding.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <limits>

namespace fogwright {
namespace {

struct CodePoint {
  std::uint32_t value;
  std::size_t length;  // 0: malformed
};

// The first sequence of non-empty bytes, by table 3-7 of the Unicode Standard (from memory).
CodePoint decode(std::string_view bytes) noexcept {
  const auto at = [&](std::size_t i) { return static_cast<unsigned char>(bytes[i]); };
  const std::uint32_t lead = at(0);
  if (lead < 0x80) return {lead, 1};
  const std::size_t length = lead < 0xC2 ? 0 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : lead < 0xF5 ? 4 : 0;
  if (length == 0 || bytes.size() < length) return {0, 0};
  std::uint32_t value = lead & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    if ((at(i) & 0xC0U) != 0x80U) return {0, 0};
    value = value << 6 | (at(i) & 0x3FU);
  }
  constexpr std::array<std::uint32_t, 5> smallest{0, 0, 0x80, 0x800, 0x10000};
  const bool surrogate = value >= 0xD800 && value < 0xE000;
  if (value < smallest[length] || value > 0x10FFFF || surrogate) return {0, 0};
  return {value, length};
}

// White_Space = yes in the Unicode Character Database, PropList.txt (from memory).
bool is_space(std::uint32_t c) noexcept {
  return (c >= 0x09 && c <= 0x0D) || c == 0x20 || c == 0x85 || c == 0xA0 || c == 0x1680 ||
         (c >= 0x2000 && c <= 0x200A) || c == 0x2028 || c == 0x2029 || c == 0x202F || c == 0x205F ||
         c == 0x3000;
}

}  // namespace

bool is_utf8(std::string_view bytes) noexcept {
  const auto is_ascii = [](char c) { return static_cast<unsigned char>(c) < 0x80; };
  for (;;) {
    const auto other = std::find_if_not(bytes.begin(), bytes.end(), is_ascii);
    bytes.remove_prefix(static_cast<std::size_t>(other - bytes.begin()));
    if (bytes.empty()) return true;
    const CodePoint next = decode(bytes);
    if (next.length == 0) return false;
    bytes.remove_prefix(next.length);
  }
}

bool has_unicode_space(std::string_view utf8) noexcept {
  while (!utf8.empty()) {
    const CodePoint next = decode(utf8);
    if (is_space(next.value)) return true;
    utf8.remove_prefix(std::max<std::size_t>(next.length, 1));
  }
  return false;
}

Result<std::uint64_t> read_decimal(std::string_view text) {
  std::uint64_t value = 0;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool leading_zero = text.size() > 1 && text.front() == '0';
  const bool whole = status == std::errc{} && end == text.data() + text.size();
  if (!whole || leading_zero || value > std::numeric_limits<std::int64_t>::max()) {
    return fail(ErrorCode::not_understood, "this is not a decimal number without sign or leading zeros");
  }
  return value;
}

}  // namespace fogwright
