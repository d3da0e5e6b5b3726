// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "server/service.hpp"

namespace fogwright::server {

/// Lets the desk decide under the writers' lock and appends what it decides. The same entry id twice is one
/// entry: the second answer says what the first did. An id that belongs to something else is refused with
/// bad_entry.
[[nodiscard]] HttpResponse write_entry(Service& service, Visit& visit);

/// The entry id of a request: Idempotency-Key. Errors: missing_value, not_understood.
[[nodiscard]] Result<Uuid> entry_id(const HttpRequest& request);

}  // namespace fogwright::server
