// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/book/note.hpp"
#include "server/service.hpp"

namespace fogwright::server {

/// The book's signing key, read at each use. Errors: not_found (none is held here), file_fault, not_understood.
[[nodiscard]] Result<SignerKey> signing_key(const Service& service);

}  // namespace fogwright::server
