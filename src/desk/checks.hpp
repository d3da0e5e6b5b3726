// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What the desk checks of a request before it becomes entries. `where` names the option or the line.

#include <chrono>
#include <initializer_list>
#include <string>
#include <string_view>

#include "fogwright/desk/context.hpp"

namespace fogwright {

/// The first that failed.
[[nodiscard]] Result<void> first_error(std::initializer_list<Result<void>> checks);

/// A name that stands in lists, file names and keys: 1 to 64 bytes, no control characters, none of / @ and no
/// space at either end. Errors: missing_value, not_understood.
[[nodiscard]] Result<void> check_name(std::string_view name, std::string_view what, std::string_view where);

/// Words for a person to read: 1 to 1,024 bytes that are not all spaces. Errors: missing_value, out_of_range.
[[nodiscard]] Result<void> check_words(std::string_view text, std::string_view what, std::string_view where);

/// A date of the calendar, "2026-03-04". Errors: missing_value, not_understood.
[[nodiscard]] Result<std::chrono::year_month_day> read_date(std::string_view text, std::string_view what,
                                                            std::string_view where);

/// A volume above zero and up to 1,000 L. Errors: out_of_range.
[[nodiscard]] Result<void> check_volume(std::int64_t ul, std::string_view where);

/// The document of a thing that must exist. Errors: not_found, with those there are.
[[nodiscard]] Result<nlohmann::json> find(const Documents& documents, std::string_view kind,
                                          std::string_view key, std::string_view where);
/// The same, and it must not be retired. Errors: not_found, wrong_state.
[[nodiscard]] Result<nlohmann::json> find_active(const Documents& documents, std::string_view kind,
                                                 std::string_view key, std::string_view where);
/// Errors: already_exists.
[[nodiscard]] Result<void> check_free(const Documents& documents, std::string_view kind, std::string_view key,
                                      std::string_view where);

/// Whether this is still a book without people, where the first may enrol themselves.
[[nodiscard]] bool nobody_enrolled(const Documents& documents);

}  // namespace fogwright
