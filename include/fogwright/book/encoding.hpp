// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "fogwright/error.hpp"

/// Bytes as text. Throughout the book, bytes travel as std::string and std::string_view.
namespace fogwright {

/// The bytes of any array or vector of octets, without a copy.
[[nodiscard]] inline std::string_view as_bytes(std::span<const std::uint8_t> octets) noexcept {
  return {reinterpret_cast<const char*>(octets.data()), octets.size()};
}

/// Lower-case hexadecimal, two digits a byte.
[[nodiscard]] std::string to_hex(std::string_view bytes);

/// The bytes that hexadecimal digits of either case stand for. Refuses an odd count and any other
/// character (not_understood).
[[nodiscard]] Result<std::string> from_hex(std::string_view text);

/// Standard Base 64 with padding (RFC 4648 section 4).
[[nodiscard]] std::string to_base64(std::string_view bytes);

/// The bytes of standard Base 64. Strict: padding is required, unused bits must be zero, nothing else
/// may stand between (not_understood). So each byte string has exactly one accepted text.
[[nodiscard]] Result<std::string> from_base64(std::string_view text);

/// Whether the bytes are well-formed UTF-8 (no surrogates, no overlong forms, nothing above U+10FFFF).
[[nodiscard]] bool is_utf8(std::string_view bytes) noexcept;

/// Whether well-formed UTF-8 text holds a character with the Unicode property White_Space.
[[nodiscard]] bool has_unicode_space(std::string_view utf8) noexcept;

/// A decimal without sign and without leading zeros, at most 2^63 - 1 (not_understood otherwise).
[[nodiscard]] Result<std::uint64_t> read_decimal(std::string_view text);

}  // namespace fogwright
