// SPDX-License-Identifier: Apache-2.0
#pragma once

/// An audit as the query of an address asks for it.

#include "fogwright/audit/audit.hpp"
#include "office/audit_filters.hpp"
#include "server/service.hpp"

namespace fogwright::server {

/// The members of the query.
[[nodiscard]] std::vector<const char*> audit_query();
/// Errors: those of read_audit_filters.
[[nodiscard]] Result<AuditScope> audit_scope(const Target& target);
/// Reads the record again where verify=true, for one visitor at a time. Errors: storage_busy; those of the key.
[[nodiscard]] Result<RecordCheck> record_check(Service& service, const Target& target);

}  // namespace fogwright::server
