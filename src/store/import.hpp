// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "store/appender.hpp"

namespace fogwright {

/// Adds the lines of an export to a book until one is at fault; the lines after that are still read, so that
/// all faults are told. Returns how many entries were new. Faults: bad_import with "file:line".
[[nodiscard]] tl::expected<std::int64_t, Faults> import_lines(Appender& appender, const std::string& origin,
                                                              BookTables& tables, const ImportSource& source,
                                                              const Progress& progress);

}  // namespace fogwright
