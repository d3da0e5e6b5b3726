// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "report/page.hpp"

namespace fogwright {

/// Warnings that stand above everything else.
[[nodiscard]] bool stops_the_job(WarningKind kind);

void short_plan(Page& page, const Plan& plan);
void requirements_section(Page& page, const Plan& plan);

}  // namespace fogwright
