// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "fogwright/paper.hpp"

namespace fogwright::test {

/// The papers of the invented firm, filled in.
[[nodiscard]] paper::Form demo_form(paper::Language language, paper::PageSize size);
[[nodiscard]] paper::LeaveBehind demo_leave_behind();
[[nodiscard]] paper::DoorNotice demo_door_notice();
[[nodiscard]] paper::MixingSheet demo_mixing_sheet();
[[nodiscard]] paper::JobRecord demo_job_record();
[[nodiscard]] paper::InventoryReport demo_inventory();
[[nodiscard]] paper::AuditReport demo_audit();
[[nodiscard]] std::vector<paper::ContainerLabel> demo_labels();

/// Every one of them, by the name of its file.
[[nodiscard]] std::vector<std::pair<std::string, paper::Paper>> all_papers(paper::Language language,
                                                                           paper::PageSize size);

}  // namespace fogwright::test
