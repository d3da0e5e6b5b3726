// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace fogwright {

/// Up to eight bytes as a number, most significant first.
[[nodiscard]] inline std::uint64_t read_big_endian(std::string_view bytes) noexcept {
  std::uint64_t value = 0;
  for (const char byte : bytes) value = value << 8 | static_cast<unsigned char>(byte);
  return value;
}

/// The low `count` bytes of a number, most significant first.
[[nodiscard]] inline std::string big_endian(std::uint64_t value, std::size_t count) {
  std::string bytes(count, '\0');
  for (; count > 0; --count, value >>= 8) bytes[count - 1] = static_cast<char>(value & 0xFF);
  return bytes;
}

}  // namespace fogwright
