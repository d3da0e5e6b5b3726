// SPDX-License-Identifier: Apache-2.0
#include "server/beside.hpp"

#include "asking/beside.hpp"
#include "fogwright/book/encoding.hpp"

namespace fogwright::server {

Beside::Beside(Store& store, const Salt& salt, const std::string& text) : store_(store) {
  if (text.empty()) return;
  hash_ = beside_hash(salt, text);
  // There already where the same was sent before, and the machine stopped before the entry was written.
  if (store.private_bytes(hash_))
    used_ = true;
  else
    store.keep_private(hash_, as_bytes(salt), text);
}

Beside::~Beside() {
  try {
    if (!hash_.empty() && !used_) store_.erase_private(hash_);
  } catch (const std::exception&) {
    // Bytes that nothing points to: they harm nobody, and the fault that led here is told already.
  }
}

}  // namespace fogwright::server
