// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What the commands that audit a book share.

#include "cli/command.hpp"
#include "fogwright/audit/audit.hpp"
#include "fogwright/store.hpp"

namespace fogwright {

/// --from, --to, --person, ...: what is looked at, and how the record is checked. Without --book.
[[nodiscard]] std::vector<OptionRow> audit_scope_options();
[[nodiscard]] tl::expected<AuditScope, Faults> read_audit_scope(const Call& call);

/// Reads the record again, unless --no-verify. Errors: those of load_vkey.
[[nodiscard]] tl::expected<RecordCheck, Faults> check_record(const Call& call, Store& store);
/// A record that is not as it was written ends the command so (bad_book), after what it has to say.
[[nodiscard]] Outcome refuse_record(const RecordCheck& record);

}  // namespace fogwright
