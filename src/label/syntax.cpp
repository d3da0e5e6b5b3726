// SPDX-License-Identifier: Apache-2.0
#include "label/syntax.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "label/key_depth.hpp"
#include "label/lines.hpp"
#include "label/members.hpp"

namespace fogwright::profile {
namespace {

constexpr int most_rounds = 25;  // each reads the whole text
constexpr std::string_view end_of_file = "encountered end-of-file";

/// What to do about a message of toml++ that holds these words.
struct Advice {
  std::string_view words, hint;
};
constexpr Advice advice[] = {
    {"redefine", "each member may be given once: delete one of the two"},
    {end_of_file, "a list or a text above is never closed: close it"},
    {"control characters", "close the text with a double quote on the line it starts on"},
    {"utf-8", "save the file as UTF-8"},
    {"", "write members as name = value, text in double quotes, lists in square brackets with commas between"},
};

bool holds(std::string_view text, std::string_view words) { return text.find(words) != std::string_view::npos; }

SyntaxFault fault_of(const toml::parse_error& error) {
  constexpr std::string_view opening = "Error while parsing ";
  std::string_view description = error.description();
  if (description.starts_with(opening)) description.remove_prefix(opening.size());
  const auto* found = std::find_if(std::begin(advice), std::end(advice),
                                   [&](const Advice& a) { return holds(description, a.words); });
  return {error.source().begin, fmt::format("not valid TOML: {}", description), std::string(found->hint)};
}

/// nullopt when the text parses. The compiled toml++ of Debian throws; this is the only place where it can. The
/// browser has no exceptions.
std::optional<SyntaxFault> try_parse(const std::string& text, toml::table& table) {
  if (const auto line = line_with_deep_key(text))
    return SyntaxFault{
        {*line, 1}, "a key has too many parts", "write members as name = value under a [table] header"};
#if TOML_EXCEPTIONS
  try {
    table = toml::parse(text);
    return std::nullopt;
  } catch (const toml::parse_error& error) {
    return fault_of(error);
  }
#else
  toml::parse_result result = toml::parse(text);
  if (!result) return fault_of(result.error());
  table = std::move(result).table();
  return std::nullopt;
#endif
}

}  // namespace

Parsed parse_profile(std::string_view text) {
  Parsed parsed;
  if (text.size() > longest_profile) {
    parsed.faults.push_back(
        {{1, 1}, fmt::format("the file has {} bytes", text.size()), "a profile has at most 1 MB"});
    return parsed;
  }
  Lines lines(text);
  bool at_end = false;
  for (int round = 0; round < most_rounds; ++round) {
    auto fault = try_parse(lines.text(), parsed.table);
    if (!fault) break;
    const auto at = fault->at;
    const bool was_at_end = std::exchange(at_end, holds(fault->message, end_of_file));
    // One unclosed text can need several statements blanked from the end; it is still one fault.
    if (!was_at_end || !at_end) parsed.faults.push_back(std::move(*fault));
    if (!(at_end ? lines.blank_last_statement() : lines.blank_statement_at(at.line, at.column))) break;
  }
  return parsed;
}

}  // namespace fogwright::profile
