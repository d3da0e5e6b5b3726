// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/audit/retention.hpp"

namespace fogwright {

/// Precondition: the table has that id.
[[nodiscard]] const RetentionRule& retention_rule(std::string_view id);
/// End of the UTC day so many years later: a day is never cut short.
[[nodiscard]] std::int64_t kept_until_ms(std::int64_t from_ms, int years);

}  // namespace fogwright
