// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "fogwright/audit/audit.hpp"
#include "fogwright/audit/retention.hpp"
#include "report/page.hpp"

namespace fogwright {

void tell_audit(const AuditAnswer& answer, Page& page);
void tell_rules(Page& page);
/// The kind of a rule and its citation; the kind once where the citation says it.
[[nodiscard]] std::string source_words(Basis kind, std::string_view citation);
// retention_text.cpp
void tell_retention(const std::vector<RetentionLine>& lines, Page& page);
/// `of` is what was asked about: "job J1".
void tell_holds(std::string_view of, const std::vector<RetentionHold>& holds, Page& page);

}  // namespace fogwright
