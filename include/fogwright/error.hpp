// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>
#include <vector>

namespace fogwright {

/// Why something was refused. Each code belongs to exactly one exit status of the command line
/// (src/cli/exit_status.cpp); a test walks them all.
enum class ErrorCode {
  // The request itself is off (exit status 2).
  bad_usage,       ///< an unknown command or option, or two that contradict each other
  not_understood,  ///< a value that cannot be read, or a unit that is not known
  out_of_range,    ///< a value that was read but lies outside what the model covers
  missing_value,   ///< something the request needs was not given
  // A rule refuses (exit status 1).
  label_forbids,           ///< the label does not allow what was asked for
  label_incomplete,        ///< the label lacks a fact without which no plan may be made
  rate_outside_band,       ///< a dose rate outside the label's or the trade's band
  incompatible_chemistry,  ///< products that must not meet, in one job or one batch
  gate_closed,             ///< a safety item is not met, so work may not start
  hold_running,            ///< the building may not be released yet
  wrong_state,             ///< the job is not in the state that this step needs
  not_permitted,           ///< the person may not do this
  stock_short,             ///< not enough of the product is on hand
  not_found,               ///< nothing goes by that name or id
  already_exists,          ///< that name or id is taken
  // The data is bad (exit status 3).
  bad_label,   ///< a product profile with faults
  bad_site,    ///< a site file with faults
  bad_import,  ///< an import with faults
  bad_entry,   ///< an entry that does not follow the record format
  bad_book,    ///< a book that fails verification, or a file that is not a book
  newer_book,  ///< a book written by a newer version of the program
  // Storage or the system failed (exit status 4).
  file_fault,      ///< a file cannot be read or written
  storage_fault,   ///< the book's storage failed
  storage_busy,    ///< another process holds the book
  internal_fault,  ///< a defect of this program
};

/// The code as it is printed and written to JSON, e.g. "out-of-range".
[[nodiscard]] std::string_view code_name(ErrorCode code) noexcept;

/// Every code, in order of declaration (for tests and documentation).
[[nodiscard]] const std::vector<ErrorCode>& all_error_codes();

/// A refusal that a person can act on.
struct Error {
  ErrorCode code{};
  std::string message;  ///< what is wrong, in one sentence
  std::string where;    ///< option, "file:line:column" or field; empty if it concerns the whole
  std::string hint;     ///< what to do next; empty only if nothing can be done

  friend bool operator==(const Error&, const Error&) = default;
};

template <class T>
using Result = tl::expected<T, Error>;

/// Several faults found in one reading (a profile, a site file, an import).
using Faults = std::vector<Error>;

[[nodiscard]] inline tl::unexpected<Error> fail(ErrorCode code, std::string message, std::string where = {},
                                                std::string hint = {}) {
  return tl::make_unexpected(Error{code, std::move(message), std::move(where), std::move(hint)});
}

}  // namespace fogwright
