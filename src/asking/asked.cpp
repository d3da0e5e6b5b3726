// SPDX-License-Identifier: Apache-2.0
#include "asking/asked.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "fogwright/book/canonical_json.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

bool all_of(const json& list, bool (json::*is)() const noexcept) {
  return list.is_array() &&
         std::all_of(list.begin(), list.end(), [is](const json& one) { return (one.*is)(); });
}

/// Whole, and within what every JSON reader holds exactly.
bool is_exact(const json& value) {
  if (value.is_number_unsigned())
    return value.get<std::uint64_t>() <= static_cast<std::uint64_t>(largest_exact_integer);
  return value.is_number_integer() && value.get<std::int64_t>() >= -largest_exact_integer;
}

bool is_of(const json& value, MemberType type) {
  switch (type) {
    case MemberType::text:
      return value.is_string();
    case MemberType::texts:
      return all_of(value, &json::is_string);
    case MemberType::whole_number:
      return is_exact(value);
    case MemberType::flag:
      return value.is_boolean();
    case MemberType::object:
      return value.is_object();
    case MemberType::objects:
      return all_of(value, &json::is_object);
  }
  return false;
}

std::string_view type_words(MemberType type) {
  switch (type) {
    case MemberType::text:
      return "a text";
    case MemberType::texts:
      return "a list of texts";
    case MemberType::whole_number:
      return "a whole number";
    case MemberType::flag:
      return "true or false";
    case MemberType::object:
      return "an object";
    case MemberType::objects:
      return "a list of objects";
  }
  return {};
}

}  // namespace

Result<json> read_body(std::string_view bytes) {
  if (bytes.empty()) return json::object();
  auto body = read_strict_json(bytes);
  if (body && body->is_object()) return body;
  return fail(ErrorCode::not_understood, body ? "the body is no object" : body.error().message, "the body",
              "send a JSON object; /api/openapi.json describes its members");
}

Faults check_members(const json& body, const std::vector<Member>& members) {
  Faults faults;
  for (const auto& [name, value] : body.items())
    if (std::none_of(members.begin(), members.end(), [&n = name](const Member& m) { return n == m.name; }))
      faults.push_back({ErrorCode::not_understood, "there is no such member", name,
                        "leave it out; /api/openapi.json describes the members"});
  for (const Member& member : members) {
    const auto given = body.find(member.name);
    if (given == body.end()) {
      if (member.needed)
        faults.push_back({ErrorCode::missing_value, "this is not given", member.name, member.help});
    } else if (!is_of(*given, member.type)) {
      faults.push_back({ErrorCode::not_understood, fmt::format("this is not {}", type_words(member.type)),
                        member.name, member.help});
    }
  }
  return faults;
}

tl::expected<json, Faults> body_of(std::string_view bytes, const std::vector<Member>& members) {
  auto body = read_body(bytes);
  if (!body) return tl::make_unexpected(Faults{body.error()});
  if (Faults faults = check_members(*body, members); !faults.empty())
    return tl::make_unexpected(std::move(faults));
  return std::move(*body);
}

std::vector<std::string> Asked::texts(const char* member) const {
  return body_.contains(member) ? body_.at(member).get<std::vector<std::string>>() : std::vector<std::string>();
}

std::int64_t Asked::read_volume(std::string_view typed, std::string_view where, Rounding rounding) {
  const LiquidVolume volume = take(read_liquid_volume(typed, where));
  return rounding == Rounding::up ? volume.ceil_in(unit::microlitre) : volume.floor_in(unit::microlitre);
}

std::int64_t Asked::volume(const char* member, Rounding rounding) {
  return read_volume(text(member), member, rounding);
}

std::optional<std::int64_t> Asked::volume_if_given(const char* member, Rounding rounding) {
  if (!has(member)) return std::nullopt;
  return volume(member, rounding);
}

std::int64_t Asked::minutes(const char* member) {
  return take(read_hold_time(text(member), member)).ceil_in(unit::minute);
}

std::int64_t Asked::fog_ms(std::string_view typed, std::string_view where) {
  return take(read_fog_time(typed, where)).floor_in(unit::millisecond);
}

double Asked::number(const char* member, double fallback) {
  return has(member) ? take(read_number(text(member), member)) : fallback;
}

}  // namespace fogwright
