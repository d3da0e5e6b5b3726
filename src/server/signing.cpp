// SPDX-License-Identifier: Apache-2.0
#include "server/signing.hpp"

#include "server/private_file.hpp"

namespace fogwright::server {

Result<SignerKey> signing_key(const Service& service) {
  auto key = read_private_file(service.settings().book_key);
  if (!key) return tl::make_unexpected(key.error());
  if (key->empty())
    return fail(ErrorCode::not_found, "this server holds no key to sign with", {}, "start it with --key FILE");
  while (!key->empty() && (key->back() == '\n' || key->back() == '\r')) key->pop_back();
  return read_skey(*key);
}

}  // namespace fogwright::server
