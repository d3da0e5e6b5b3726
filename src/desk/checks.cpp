// SPDX-License-Identifier: Apache-2.0
#include "desk/checks.hpp"

#include <fmt/format.h>
#include <algorithm>

#include "desk/vessels.hpp"

namespace fogwright {
namespace {

constexpr std::size_t longest_name = 64;
constexpr std::size_t longest_words = 1'024;
constexpr std::int64_t largest_volume_ul = 1'000'000'000;
constexpr std::size_t names_shown = 8;

bool all_spaces(std::string_view text) { return text.find_first_not_of(" \t\r\n") == std::string_view::npos; }

bool control_or_reserved(char c) {
  return static_cast<unsigned char>(c) < 0x20 || c == 0x7f || c == '/' || c == '@';
}

/// "known: heron, plover" for the hint of a name that is not known.
std::string known_names(const Documents& documents, std::string_view kind) {
  std::string names;
  std::size_t count = 0;
  documents.each(kind, true, [&](const std::string& key, const nlohmann::json&) {
    if (count++ < names_shown) names += (names.empty() ? "" : ", ") + key;
  });
  if (count == 0) return fmt::format("the book has no {} yet", kind);
  return fmt::format("known: {}{}", names, count > names_shown ? ", ..." : "");
}

std::optional<int> digits(std::string_view text) {
  int value = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return value;
}

}  // namespace

Result<void> first_error(std::initializer_list<Result<void>> checks) {
  for (const Result<void>& check : checks)
    if (!check) return check;
  return {};
}

Result<void> check_name(std::string_view name, std::string_view what, std::string_view where) {
  if (name.empty())
    return fail(ErrorCode::missing_value, fmt::format("the {} has no name", what), std::string(where),
                "give it a short name, e.g. heron");
  const bool bad = name.size() > longest_name || name.front() == ' ' || name.back() == ' ' ||
                   std::any_of(name.begin(), name.end(), control_or_reserved);
  if (bad)
    return fail(ErrorCode::not_understood, fmt::format("\"{}\" can't be the name of a {}", name, what),
                std::string(where), "take up to 64 letters, digits, spaces or hyphens");
  return {};
}

Result<void> check_words(std::string_view text, std::string_view what, std::string_view where) {
  if (all_spaces(text))
    return fail(ErrorCode::missing_value, fmt::format("{} is missing", what), std::string(where),
                "write it in a few words");
  if (text.size() > longest_words)
    return fail(ErrorCode::out_of_range, fmt::format("{} is longer than {} bytes", what, longest_words),
                std::string(where), "write it shorter");
  return {};
}

Result<std::chrono::year_month_day> read_date(std::string_view text, std::string_view what,
                                              std::string_view where) {
  using namespace std::chrono;
  if (text.empty())
    return fail(ErrorCode::missing_value, fmt::format("{} is missing", what), std::string(where),
                "write a date, e.g. 2026-03-04");
  if (text.size() == 10 && text[4] == '-' && text[7] == '-') {
    const auto y = digits(text.substr(0, 4));
    const auto m = digits(text.substr(5, 2));
    const auto d = digits(text.substr(8, 2));
    if (y && m && d) {
      const year_month_day date{year{*y}, month{static_cast<unsigned>(*m)}, day{static_cast<unsigned>(*d)}};
      if (date.ok() && *y >= 1970) return date;
    }
  }
  return fail(ErrorCode::not_understood, fmt::format("{} \"{}\" is not a date of the calendar", what, text),
              std::string(where), "write year, month and day: 2026-03-04");
}

Result<void> check_volume(std::int64_t ul, std::string_view where) {
  if (ul > 0 && ul <= largest_volume_ul) return {};
  return fail(ErrorCode::out_of_range,
              fmt::format("a volume of {} is not above zero and up to 1,000 L", volume_words(ul)),
              std::string(where), "write e.g. '12 fl oz'");
}

Result<nlohmann::json> find(const Documents& documents, std::string_view kind, std::string_view key,
                            std::string_view where) {
  if (auto body = documents.get(kind, key)) return *body;
  return fail(ErrorCode::not_found, fmt::format("no {} is called \"{}\"", kind, key), std::string(where),
              known_names(documents, kind));
}

Result<nlohmann::json> find_active(const Documents& documents, std::string_view kind, std::string_view key,
                                   std::string_view where) {
  auto body = find(documents, kind, key, where);
  if (body && !body->value("active", true))
    return fail(ErrorCode::wrong_state, fmt::format("{} {} is retired", kind, key), std::string(where),
                known_names(documents, kind));
  return body;
}

Result<void> check_free(const Documents& documents, std::string_view kind, std::string_view key,
                        std::string_view where) {
  if (!documents.get(kind, key)) return {};
  return fail(ErrorCode::already_exists, fmt::format("a {} is already called \"{}\"", kind, key),
              std::string(where), "take another name");
}

bool nobody_enrolled(const Documents& documents) {
  bool any = false;
  documents.each("person", false, [&any](const std::string&, const nlohmann::json&) { any = true; });
  return !any;
}

}  // namespace fogwright
