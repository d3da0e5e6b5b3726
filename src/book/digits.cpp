// SPDX-License-Identifier: Apache-2.0
// Bytes as digits: hexadecimal and Base 64. The browser has its own (src/browser/hex.cpp).
#include <sodium.h>

#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

const unsigned char* octets(std::string_view bytes) {
  return reinterpret_cast<const unsigned char*>(bytes.data());
}

}  // namespace

std::string to_hex(std::string_view bytes) {
  std::string text(2 * bytes.size() + 1, '\0');
  sodium_bin2hex(text.data(), text.size(), octets(bytes), bytes.size());
  text.pop_back();
  return text;
}

Result<std::string> from_hex(std::string_view text) {
  std::string bytes(text.size() / 2, '\0');
  std::size_t length = 0;
  const int status = sodium_hex2bin(reinterpret_cast<unsigned char*>(bytes.data()), bytes.size(), text.data(),
                                    text.size(), nullptr, &length, nullptr);
  if (text.size() % 2 != 0 || status != 0) {
    return fail(ErrorCode::not_understood, "this is not hexadecimal", {},
                "give an even number of digits 0-9 a-f");
  }
  return bytes;
}

std::string to_base64(std::string_view bytes) {
  std::string text(sodium_base64_encoded_len(bytes.size(), sodium_base64_VARIANT_ORIGINAL), '\0');
  sodium_bin2base64(text.data(), text.size(), octets(bytes), bytes.size(), sodium_base64_VARIANT_ORIGINAL);
  text.pop_back();  // the terminator
  return text;
}

Result<std::string> from_base64(std::string_view text) {
  std::string bytes(text.size() / 4 * 3 + 3, '\0');
  std::size_t length = 0;
  const int status =
      sodium_base642bin(reinterpret_cast<unsigned char*>(bytes.data()), bytes.size(), text.data(), text.size(),
                        nullptr, &length, nullptr, sodium_base64_VARIANT_ORIGINAL);
  if (status != 0) {
    return fail(ErrorCode::not_understood, "this is not standard Base 64 with padding", {},
                "copy the line again, whole and without line breaks");
  }
  bytes.resize(length);
  return bytes;
}

}  // namespace fogwright
