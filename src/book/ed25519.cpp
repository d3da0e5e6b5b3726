// SPDX-License-Identifier: Apache-2.0
#include "book/ed25519.hpp"

#include <sodium.h>

namespace fogwright::ed25519 {
namespace {

const unsigned char* octets(std::string_view bytes) {
  return reinterpret_cast<const unsigned char*>(bytes.data());
}

struct KeyPair {
  explicit KeyPair(const KeyBytes& seed) { crypto_sign_seed_keypair(open.data(), secret.data(), seed.data()); }
  KeyPair(const KeyPair&) = delete;
  KeyPair& operator=(const KeyPair&) = delete;
  ~KeyPair() { sodium_memzero(secret.data(), secret.size()); }

  KeyBytes open{};
  std::array<unsigned char, crypto_sign_SECRETKEYBYTES> secret{};
};

}  // namespace

KeyBytes public_key(const KeyBytes& seed) { return KeyPair(seed).open; }

std::string sign(std::string_view message, const KeyBytes& seed) {
  const KeyPair pair(seed);
  std::string signature(crypto_sign_BYTES, '\0');
  crypto_sign_detached(reinterpret_cast<unsigned char*>(signature.data()), nullptr, octets(message),
                       message.size(), pair.secret.data());
  return signature;
}

bool verify(std::string_view message, std::string_view signature, const KeyBytes& public_key) {
  return signature.size() == crypto_sign_BYTES &&
         crypto_sign_verify_detached(octets(signature), octets(message), message.size(), public_key.data()) ==
             0;
}

void wipe(KeyBytes& secret) noexcept { sodium_memzero(secret.data(), secret.size()); }

}  // namespace fogwright::ed25519
