// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The filters of an audit, as options of a command or as the query of an address.

#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "fogwright/audit/audit.hpp"

namespace fogwright {

/// What was given for one of from, to, person, product, van, job, rule, severity, limit; nullopt: nothing.
using GivenFilter = std::function<std::optional<std::string>(const char* name)>;
/// `mark` stands before the name in faults: "--" of an option. Errors: not_understood (day, severity),
/// not_found (rule), out_of_range (the range; limit).
[[nodiscard]] Result<AuditScope> read_audit_filters(const GivenFilter& given, std::string_view mark);
/// Whether the book knows the person, product, place and job that are asked for: a name that is mistyped must
/// not look like one without departures. Who or what is retired or closed is known, and so is a name that
/// stands in a departure alone. Errors: not_found.
[[nodiscard]] Result<void> check_audit_names(const Documents& documents, const AuditInput& input,
                                             const AuditScope& scope, std::string_view mark);

}  // namespace fogwright
