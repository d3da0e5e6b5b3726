// SPDX-License-Identifier: Apache-2.0
#include "fogwright/error.hpp"

namespace fogwright {

std::string_view code_name(ErrorCode code) noexcept {
  switch (code) {
    case ErrorCode::bad_usage:
      return "bad-usage";
    case ErrorCode::not_understood:
      return "not-understood";
    case ErrorCode::out_of_range:
      return "out-of-range";
    case ErrorCode::missing_value:
      return "missing-value";
    case ErrorCode::label_forbids:
      return "label-forbids";
    case ErrorCode::label_incomplete:
      return "label-incomplete";
    case ErrorCode::rate_outside_band:
      return "rate-outside-band";
    case ErrorCode::incompatible_chemistry:
      return "incompatible-chemistry";
    case ErrorCode::gate_closed:
      return "gate-closed";
    case ErrorCode::hold_running:
      return "hold-running";
    case ErrorCode::wrong_state:
      return "wrong-state";
    case ErrorCode::not_permitted:
      return "not-permitted";
    case ErrorCode::stock_short:
      return "stock-short";
    case ErrorCode::not_found:
      return "not-found";
    case ErrorCode::already_exists:
      return "already-exists";
    case ErrorCode::bad_label:
      return "bad-label";
    case ErrorCode::bad_site:
      return "bad-site";
    case ErrorCode::bad_import:
      return "bad-import";
    case ErrorCode::bad_entry:
      return "bad-entry";
    case ErrorCode::bad_book:
      return "bad-book";
    case ErrorCode::newer_book:
      return "newer-book";
    case ErrorCode::file_fault:
      return "file-fault";
    case ErrorCode::storage_fault:
      return "storage-fault";
    case ErrorCode::storage_busy:
      return "storage-busy";
    case ErrorCode::internal_fault:
      return "internal-fault";
  }
  return "internal-fault";
}

const std::vector<ErrorCode>& all_error_codes() {
  static const std::vector<ErrorCode> codes = [] {
    std::vector<ErrorCode> all;
    for (int i = 0; i <= static_cast<int>(ErrorCode::internal_fault); ++i)
      all.push_back(static_cast<ErrorCode>(i));
    return all;
  }();
  return codes;
}

}  // namespace fogwright
