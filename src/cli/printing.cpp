// SPDX-License-Identifier: Apache-2.0
#include "cli/printing.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <ostream>

#include "report/rows.hpp"

namespace fogwright {
namespace {

constexpr std::pair<std::string_view, Format> formats[] = {
    {"text", Format::text}, {"json", Format::json}, {"csv", Format::csv}, {"jsonl", Format::json_lines}};

}  // namespace

Result<Format> format_of(const Options& options, const Command& command) {
  const bool json = options.has("json");
  const auto typed = options.text("format");
  if (!typed) return json ? Format::json : Format::text;
  const auto* const found = std::find_if(std::begin(formats), std::end(formats),
                                         [&](const auto& row) { return row.first == *typed; });
  if (found == std::end(formats))
    return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a format", *typed), "--format",
                "write text, json, csv or jsonl");
  if (json && found->second != Format::json)
    return fail(ErrorCode::bad_usage, fmt::format("--json and --format {} contradict each other", *typed),
                "--format", "give one of the two");
  const bool table = found->second == Format::csv || found->second == Format::json_lines;
  if (table && command.rows.at.empty())
    return fail(ErrorCode::bad_usage, "this command prints no table", "--format",
                "write --format json; csv and jsonl are for lists");
  return found->second;
}

bool wants_json(const std::vector<std::string>& words) {
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == "--json" || words[i] == "--format=json" || words[i] == "--format=jsonl") return true;
    if (i > 0 && words[i - 1] == "--format" && (words[i] == "json" || words[i] == "jsonl")) return true;
  }
  return false;
}

void print_rows(const Call& call, const nlohmann::json& rows) {
  call.outside.out << (call.format == Format::csv ? rows_csv(rows, call.rows.columns) : rows_json_lines(rows));
}

void print_shown(const Call& call, const nlohmann::json& shown, Page&& page) {
  switch (call.format) {
    case Format::text:
      call.outside.out << std::move(page).take();
      return;
    case Format::json:
      call.outside.out << shown.dump(2) << '\n';
      return;
    case Format::csv:
    case Format::json_lines:
      print_rows(call, rows_at(shown, call.rows.at));
      return;
  }
}

}  // namespace fogwright
