// SPDX-License-Identifier: Apache-2.0
#include "asking/ids.hpp"

#include <algorithm>

#include "fogwright/book/encoding.hpp"
#include "fogwright/book/sha256.hpp"

namespace fogwright {

Uuid derived_id(const Uuid& first, std::uint32_t number) {
  if (number == 0) return first;
  const Hash hash = sha256(uuid_text(first) + "\n" + std::to_string(number));
  UuidRandom random{};
  std::copy_n(hash.begin(), random.size(), random.begin());
  return uuid_v7(uuid_ms(first), random);
}

std::string digest_hex(std::string_view text) { return to_hex(as_bytes(sha256(text))); }

}  // namespace fogwright
