// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The desk decides which entries a request becomes; the fold turns entries into documents (docs/entries.md).
/// Both are pure and run under the writers' lock of a store, on a server, or in the browser.

#include <functional>
#include <string>
#include <vector>

#include "fogwright/book/documents.hpp"
#include "fogwright/book/new_entry.hpp"

namespace fogwright {

/// A device's own evidence of time beside the calendar: which boot is running, and for how long.
struct BootClock {
  std::string boot;            ///< identity of the running boot; empty where the system tells none
  std::int64_t uptime_ms = 0;  ///< since that boot, suspended time included
};

/// Who asks, when, and what the book knows.
struct DeskContext {
  const Documents& documents;
  std::string actor;  ///< handle; must be an enrolled, active person (the very first enrolment aside)
  std::string device;
  std::int64_t now_ms = 0;  ///< UTC
  BootClock clock;
  std::function<Uuid()> new_id;
};

using Drafts = std::vector<NewEntry>;

/// One entry by the context's actor, now.
[[nodiscard]] NewEntry draft(const DeskContext& context, std::string kind, nlohmann::json body);

enum class Role { technician, owner, safety_officer };
[[nodiscard]] std::string_view role_name(Role role) noexcept;  ///< "technician", "owner", "safety-officer"

/// Whether the actor may make entries of this kind; one table for all kinds (src/desk/permissions.cpp).
/// Errors: not_found (no such person, or retired), not_permitted.
[[nodiscard]] Result<void> may_make(const DeskContext& context, std::string_view kind);

}  // namespace fogwright
