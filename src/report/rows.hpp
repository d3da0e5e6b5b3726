// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What a command shows, as a table for other programs (docs/exchange.md).

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <vector>

namespace fogwright {

/// The rows of what is shown: "crew" is the list of that name, "vans.packages" the packages of each van with
/// the van's own single values beside them, "." the object itself as one row. Precondition: what `at` names is
/// there.
[[nodiscard]] nlohmann::json rows_at(const nlohmann::json& shown, std::string_view at);

/// CSV by RFC 4180: a header, then a record a row. The columns named come first and always; what else the rows
/// hold follows by name. An object becomes dotted columns; a list of words is joined by "; ", any other list
/// stands as its JSON text. A moment (`*_ms`) stands as `*_utc`, "2026-03-04 14:05:00"; other figures keep the
/// unit in their name. Texts that a spreadsheet would take for a formula are guarded (csv_guarded).
[[nodiscard]] std::string rows_csv(const nlohmann::json& rows, const std::vector<std::string_view>& columns);

/// One row a line, as it is.
[[nodiscard]] std::string rows_json_lines(const nlohmann::json& rows);

}  // namespace fogwright
