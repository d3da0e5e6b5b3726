// SPDX-License-Identifier: Apache-2.0
#pragma once

/// How what a command shows is printed: one place for text, JSON, CSV and JSON Lines.

#include <nlohmann/json.hpp>

#include "cli/command.hpp"
#include "report/page.hpp"

namespace fogwright {

/// "text", "json", "csv", "jsonl". Errors: not_understood; bad_usage where two formats are asked for, or a
/// table of a command that has none.
[[nodiscard]] Result<Format> format_of(const Options& options, const Command& command);

/// Whether errors are to be JSON too; looks at the words, since they may be what is wrong.
[[nodiscard]] bool wants_json(const std::vector<std::string>& words);

/// Prints in the call's format: the page, the JSON, or the command's rows out of it.
void print_shown(const Call& call, const nlohmann::json& shown, Page&& page);
/// The same for rows that the command picked itself.
void print_rows(const Call& call, const nlohmann::json& rows);

}  // namespace fogwright
