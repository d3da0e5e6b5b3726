// SPDX-License-Identifier: Apache-2.0
#include "audit/glance.hpp"

#include <algorithm>
#include <charconv>
#include <cstring>
#include <nlohmann/json.hpp>

namespace fogwright {
namespace {

constexpr bool is_blank(char c) { return c == ' ' || c == '\n' || c == '\t' || c == '\r'; }

const char* skip_blanks(const char* at, const char* end) {
  while (at < end && is_blank(*at)) ++at;
  return at;
}

/// Not zero if one of the eight bytes is this one.
constexpr std::uint64_t holds(std::uint64_t eight, char byte) {
  constexpr std::uint64_t ones = 0x0101'0101'0101'0101;
  const std::uint64_t differing = eight ^ ones * static_cast<unsigned char>(byte);
  return (differing - ones) & ~differing & ones << 7;
}

/// `at` stands on the opening quote; returns what follows the closing one. Most of what is skipped is strings:
/// they are passed over by eight bytes as long as nothing in them matters.
const char* skip_string(const char* at, const char* end) {
  ++at;
  while (at < end) {
    for (std::uint64_t eight = 0; end - at >= 8; at += 8) {
      std::memcpy(&eight, at, sizeof eight);
      if ((holds(eight, '"') | holds(eight, '\\')) != 0) break;
    }
    while (at < end && *at != '"' && *at != '\\') ++at;
    if (at == end) break;
    if (*at == '"') return at + 1;
    at += std::min<std::ptrdiff_t>(2, end - at);  // what follows a backslash means nothing by itself
  }
  return end;
}

/// An object or array, from its opening bracket to behind its closing one.
const char* skip_nest(const char* at, const char* end) {
  int depth = 0;
  while (at < end) {
    const char c = *at;
    if (c == '"') {
      at = skip_string(at, end);
      continue;
    }
    ++at;
    if (c == '{' || c == '[') ++depth;
    if ((c == '}' || c == ']') && --depth == 0) return at;
  }
  return end;
}

const char* skip_value(const char* at, const char* end) {
  if (at >= end) return end;
  if (*at == '"') return skip_string(at, end);
  if (*at == '{' || *at == '[') return skip_nest(at, end);
  while (at < end && *at != ',' && *at != '}' && *at != ']' && !is_blank(*at)) ++at;
  return at;
}

std::string_view between(const char* from, const char* to) {
  return {from, static_cast<std::size_t>(to - from)};
}

std::string_view unquoted(std::string_view value) {
  return value.size() >= 2 && value.front() == '"' ? value.substr(1, value.size() - 2) : std::string_view{};
}

}  // namespace

Glance::Glance(std::string_view object) {
  const char* const end = object.data() + object.size();
  const char* at = skip_blanks(object.data(), end);
  if (at == end || *at != '{') return;
  at = skip_blanks(at + 1, end);
  while (at < end && *at == '"' && count_ < members_.size()) {
    const char* const name_end = skip_string(at, end);
    const std::string_view name = unquoted(between(at, name_end));
    at = skip_blanks(name_end, end);
    if (at == end || *at != ':') return;
    at = skip_blanks(at + 1, end);
    const char* const value_end = skip_value(at, end);
    members_[count_++] = {name, between(at, value_end)};
    at = skip_blanks(value_end, end);
    if (at == end || *at != ',') return;
    at = skip_blanks(at + 1, end);
  }
}

std::string_view Glance::raw(std::string_view name) const {
  for (std::size_t i = 0; i < count_; ++i)
    if (members_[i].name == name) return members_[i].value;
  return {};
}

std::string_view Glance::word(std::string_view name) const { return unquoted(raw(name)); }

std::string Glance::text(std::string_view name) const {
  const std::string_view value = raw(name);
  if (value.find('\\') == std::string_view::npos) return std::string(unquoted(value));
  const auto read = nlohmann::json::parse(value.begin(), value.end(), nullptr, false);
  return read.is_string() ? read.get<std::string>() : std::string();
}

std::optional<std::int64_t> Glance::integer(std::string_view name) const { return integer_in(raw(name)); }

std::optional<std::int64_t> integer_in(std::string_view value) {
  std::int64_t number = 0;
  const auto [end, error] = std::from_chars(value.data(), value.data() + value.size(), number);
  if (value.empty() || error != std::errc{} || end != value.data() + value.size()) return std::nullopt;
  return number;
}

void each_element(std::string_view array, const std::function<void(std::string_view element)>& visit) {
  const char* const end = array.data() + array.size();
  const char* at = skip_blanks(array.data(), end);
  if (at == end || *at != '[') return;
  at = skip_blanks(at + 1, end);
  while (at < end && *at != ']') {
    const char* const value_end = skip_value(at, end);
    visit(between(at, value_end));
    at = skip_blanks(value_end, end);
    if (at == end || *at != ',') return;
    at = skip_blanks(at + 1, end);
  }
}

}  // namespace fogwright
