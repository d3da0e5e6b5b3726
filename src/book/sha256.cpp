// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/sha256.hpp"

// The hash itself, without the lookups and contexts of EVP: these cost as much as the two blocks of a node. It
// is there under this version of OpenSSL's interface; nothing of what is hashed here has to be FIPS 140.
#define OPENSSL_API_COMPAT 0x10100000L
#include <openssl/sha.h>

#include <algorithm>

#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

// Each update costs some time, so none is wasted.
Hash joined(std::string_view first, std::string_view second) {
  SHA256_CTX context;
  Hash hash;
  SHA256_Init(&context);
  SHA256_Update(&context, first.data(), first.size());
  if (!second.empty()) SHA256_Update(&context, second.data(), second.size());
  SHA256_Final(hash.data(), &context);
  return hash;
}

}  // namespace

Hash sha256(std::string_view bytes) { return joined(bytes, {}); }

Hash hash_leaf(std::string_view bytes) { return joined(std::string_view("\0", 1), bytes); }

Hash hash_node(const Hash& left, const Hash& right) {
  std::array<std::uint8_t, 65> message;
  message[0] = 0x01;
  std::copy(left.begin(), left.end(), message.begin() + 1);
  std::copy(right.begin(), right.end(), message.begin() + 33);
  return sha256(as_bytes(message));
}

Hash salted_hash(std::string_view salt, std::string_view bytes) { return joined(salt, bytes); }

Hash salted_hash(const Salt& salt, std::string_view bytes) { return joined(as_bytes(salt), bytes); }

Result<Hash> read_hash(std::string_view bytes) {
  Hash hash;
  if (bytes.size() != hash.size()) {
    return fail(ErrorCode::not_understood,
                "a SHA-256 hash has 32 bytes, this has " + std::to_string(bytes.size()));
  }
  std::copy(bytes.begin(), bytes.end(), hash.begin());
  return hash;
}

}  // namespace fogwright
