// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/sha256.hpp"

#include <openssl/evp.h>

#include <algorithm>
#include <stdexcept>

#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

void require(bool worked) {
  if (!worked) throw std::runtime_error("OpenSSL cannot compute SHA-256 on this machine");
}

// A context of its own for each thread, since the one-shot helpers are called from anywhere.
Sha256& of_this_thread() {
  thread_local Sha256 hasher;
  return hasher;
}

// The digest is fetched once for good: a lookup by name at each use costs more than a node hash.
const EVP_MD* digest() {
  static const EVP_MD* const fetched = EVP_MD_fetch(nullptr, "SHA256", nullptr);
  require(fetched != nullptr);
  return fetched;
}

}  // namespace

void Sha256::Free::operator()(evp_md_ctx_st* context) const noexcept { EVP_MD_CTX_free(context); }

Sha256::Sha256() : context_(EVP_MD_CTX_new()) {
  require(context_ != nullptr && EVP_DigestInit_ex2(context_.get(), digest(), nullptr) == 1);
}

Hash Sha256::joined(std::string_view first, std::string_view second) {
  Hash hash;
  evp_md_ctx_st* const context = context_.get();
  // A null digest keeps the one that is set and starts over. Each update costs some 15 ns, so none is wasted.
  require(EVP_DigestInit_ex2(context, nullptr, nullptr) == 1 &&
          EVP_DigestUpdate(context, first.data(), first.size()) == 1 &&
          (second.empty() || EVP_DigestUpdate(context, second.data(), second.size()) == 1) &&
          EVP_DigestFinal_ex(context, hash.data(), nullptr) == 1);
  return hash;
}

Hash Sha256::plain(std::string_view bytes) { return joined(bytes, {}); }

Hash Sha256::leaf(std::string_view bytes) { return joined(std::string_view("\0", 1), bytes); }

Hash Sha256::node(const Hash& left, const Hash& right) {
  std::array<std::uint8_t, 65> message;
  message[0] = 0x01;
  std::copy(left.begin(), left.end(), message.begin() + 1);
  std::copy(right.begin(), right.end(), message.begin() + 33);
  return plain(as_bytes(message));
}

Hash sha256(std::string_view bytes) { return of_this_thread().plain(bytes); }
Hash hash_leaf(std::string_view bytes) { return of_this_thread().leaf(bytes); }
Hash hash_node(const Hash& left, const Hash& right) { return of_this_thread().node(left, right); }

Hash salted_hash(const Salt& salt, std::string_view bytes) {
  return of_this_thread().joined(as_bytes(salt), bytes);
}

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
