// SPDX-License-Identifier: Apache-2.0
#include "asking/beside.hpp"

#include "fogwright/book/encoding.hpp"

namespace fogwright {

std::string beside_text(const Route& route, const Asked& asked) {
  nlohmann::json kept = nlohmann::json::object();
  for (const char* member : route.beside)
    if (asked.has(member)) kept[member] = asked.text(member);
  return kept.empty() ? std::string() : kept.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string beside_hash(const Salt& salt, std::string_view text) {
  return to_hex(as_bytes(salted_hash(salt, text)));
}

}  // namespace fogwright
