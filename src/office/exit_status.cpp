// SPDX-License-Identifier: Apache-2.0
#include "office/exit_status.hpp"

#include <ostream>

#include "fogwright/plan.hpp"
#include "report/page.hpp"

namespace fogwright {

ExitStatus exit_status(ErrorCode code) noexcept {
  switch (code) {
    case ErrorCode::bad_usage:
    case ErrorCode::not_understood:
    case ErrorCode::out_of_range:
    case ErrorCode::missing_value:
      return ExitStatus::usage;
    case ErrorCode::label_forbids:
    case ErrorCode::label_incomplete:
    case ErrorCode::rate_outside_band:
    case ErrorCode::incompatible_chemistry:
    case ErrorCode::gate_closed:
    case ErrorCode::hold_running:
    case ErrorCode::wrong_state:
    case ErrorCode::not_permitted:
    case ErrorCode::stock_short:
    case ErrorCode::not_found:
    case ErrorCode::already_exists:
      return ExitStatus::refused;
    case ErrorCode::bad_label:
    case ErrorCode::bad_site:
    case ErrorCode::bad_import:
    case ErrorCode::bad_entry:
    case ErrorCode::bad_book:
    case ErrorCode::newer_book:
      return ExitStatus::bad_data;
    case ErrorCode::file_fault:
    case ErrorCode::storage_fault:
    case ErrorCode::storage_busy:
    case ErrorCode::internal_fault:
      return ExitStatus::system;
  }
  return ExitStatus::system;
}

void print_faults(const Faults& faults, bool as_json, int width, std::ostream& out) {
  if (as_json) {
    out << faults_json(faults).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace) << '\n';
    return;
  }
  Page page({width, false});
  for (const Error& fault : faults) {
    page.paragraph("fogwright: " + (fault.where.empty() ? "" : fault.where + ": ") + fault.message, "");
    if (!fault.hint.empty()) page.paragraph(fault.hint);
  }
  out << std::move(page).take();
}

}  // namespace fogwright
