// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "fogwright/error.hpp"

namespace fogwright {

/// A SHA-256 digest (FIPS 180-4).
using Hash = std::array<std::uint8_t, 32>;

/// Random bytes that keep a hash of guessable data from being guessed.
using Salt = std::array<std::uint8_t, 16>;

/// SHA-256 of the bytes as they are.
[[nodiscard]] Hash sha256(std::string_view bytes);
/// The leaf hash of RFC 9162 section 2.1.1, SHA-256(0x00 || bytes).
[[nodiscard]] Hash hash_leaf(std::string_view bytes);
/// The node hash of the same, SHA-256(0x01 || left || right).
[[nodiscard]] Hash hash_node(const Hash& left, const Hash& right);

/// SHA-256(salt || bytes): stands in the record for data that may have to be erased later. Salt and data
/// live beside the record; with both gone the hash tells nothing.
[[nodiscard]] Hash salted_hash(const Salt& salt, std::string_view bytes);
/// The same with a salt as it is kept, of whatever length.
[[nodiscard]] Hash salted_hash(std::string_view salt, std::string_view bytes);

/// 32 bytes as a hash; any other length is refused (not_understood). Every hash that comes from outside
/// passes here, so a proof with short hashes cannot reach the verifiers.
[[nodiscard]] Result<Hash> read_hash(std::string_view bytes);

}  // namespace fogwright
