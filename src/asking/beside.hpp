// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "asking/route.hpp"
#include "fogwright/book/sha256.hpp"

namespace fogwright {

/// What may have to be erased, and lives beside the record under its salted hash: the text of the request's
/// members that the route keeps so. Empty where none was given.
[[nodiscard]] std::string beside_text(const Route& route, const Asked& asked);
/// The hash that stands in the record, as hexadecimal.
[[nodiscard]] std::string beside_hash(const Salt& salt, std::string_view text);

}  // namespace fogwright
