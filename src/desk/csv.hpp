// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fogwright/error.hpp"

namespace fogwright {

/// A record of a CSV file and the line on which it starts.
struct CsvRecord {
  int line = 1;
  std::vector<std::string> fields;
};

/// RFC 4180: fields in double quotes may hold commas, line breaks and doubled quotes; lines end in CRLF or LF.
/// A byte order mark at the start and empty lines are passed over. Errors: bad_import, each with "file:line".
[[nodiscard]] tl::expected<std::vector<CsvRecord>, Faults> read_csv(std::string_view text,
                                                                    std::string_view file);

/// A record with its CRLF. Quotes stand where RFC 4180 asks for them (comma, quote, CR, LF), and around the
/// empty field of a record that has no other: readers pass over an empty line.
[[nodiscard]] std::string csv_line(const std::vector<std::string>& fields);

/// Text that no spreadsheet takes for a formula: an apostrophe goes before what begins with = + - @ (also in
/// their wide forms), TAB, CR, LF or NUL, plain numbers aside. OWASP ASVS 5.0, 1.2.10. One to one: see
/// csv_unguarded.
[[nodiscard]] std::string csv_guarded(std::string_view text);
/// The text as it was before csv_guarded.
[[nodiscard]] std::string csv_unguarded(std::string_view field);

}  // namespace fogwright
