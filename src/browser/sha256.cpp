// SPDX-License-Identifier: Apache-2.0
// SHA-256 in the browser: whoever loads the engine hands it in, since WebCrypto answers only later
// (engine.d.ts).
#include "fogwright/book/sha256.hpp"

#include <emscripten.h>

#include <string>

#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

EM_JS(void, page_sha256, (const char* bytes, unsigned size, unsigned char* digest),
      { HEAPU8.set(Module.sha256(HEAPU8.slice(bytes, bytes + size)), digest); });

}  // namespace

Hash sha256(std::string_view bytes) {
  Hash hash{};
  page_sha256(bytes.data(), static_cast<unsigned>(bytes.size()), hash.data());
  return hash;
}

Hash salted_hash(const Salt& salt, std::string_view bytes) {
  return sha256(std::string(as_bytes(salt)).append(bytes));
}

}  // namespace fogwright
