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

}  // namespace fogwright
