// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "browser/device_desk.hpp"

namespace fogwright {

/// An own entry as the outbox keeps it and POST /api/v1/sync takes it.
[[nodiscard]] nlohmann::json own_entry_json(const OwnEntry& own);
/// Errors: bad_entry.
[[nodiscard]] Result<OwnEntry> read_own_entry(const nlohmann::json& entry);
/// An entry as GET /api/v1/book/entries gives it. Errors: bad_entry.
[[nodiscard]] Result<Entry> read_book_entry(const nlohmann::json& entry);

}  // namespace fogwright
