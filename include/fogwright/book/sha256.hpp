// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string_view>

#include "fogwright/error.hpp"

struct evp_md_ctx_st;  // OpenSSL's EVP_MD_CTX, kept out of this header

namespace fogwright {

/// A SHA-256 digest (FIPS 180-4).
using Hash = std::array<std::uint8_t, 32>;

/// Random bytes that keep a hash of guessable data from being guessed.
using Salt = std::array<std::uint8_t, 16>;

/// The leaf and node hashes of RFC 9162 section 2.1.1 with one context used again and again, since
/// making one costs more than hashing an entry. One owner a thread. Throws std::runtime_error if OpenSSL
/// has no SHA-256.
class Sha256 {
 public:
  Sha256();

  /// SHA-256 of the bytes as they are.
  [[nodiscard]] Hash plain(std::string_view bytes);
  /// SHA-256(0x00 || bytes).
  [[nodiscard]] Hash leaf(std::string_view bytes);
  /// SHA-256(0x01 || left || right).
  [[nodiscard]] Hash node(const Hash& left, const Hash& right);
  /// SHA-256(first || second), for a salt or a prefix before data that is not copied.
  [[nodiscard]] Hash joined(std::string_view first, std::string_view second);

 private:
  struct Free {
    void operator()(evp_md_ctx_st* context) const noexcept;
  };
  std::unique_ptr<evp_md_ctx_st, Free> context_;
};

/// The same with a context that the calling thread keeps.
[[nodiscard]] Hash sha256(std::string_view bytes);
[[nodiscard]] Hash hash_leaf(std::string_view bytes);
[[nodiscard]] Hash hash_node(const Hash& left, const Hash& right);

/// SHA-256(salt || bytes): stands in the record for data that may have to be erased later. Salt and data
/// live beside the record; with both gone the hash tells nothing.
[[nodiscard]] Hash salted_hash(const Salt& salt, std::string_view bytes);

/// 32 bytes as a hash; any other length is refused (not_understood). Every hash that comes from outside
/// passes here, so a proof with short hashes cannot reach the verifiers.
[[nodiscard]] Result<Hash> read_hash(std::string_view bytes);

}  // namespace fogwright
