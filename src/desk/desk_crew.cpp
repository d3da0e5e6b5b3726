// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>

#include "desk/checks.hpp"
#include "fogwright/desk/crew.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

bool is_active_owner(const json& person) {
  const auto& roles = person.at("roles");
  return person.value("active", false) && std::find(roles.begin(), roles.end(), "owner") != roles.end();
}

/// Whether somebody else is an active owner.
bool another_owner(const Documents& documents, const std::string& handle) {
  bool other = false;
  documents.each("person", true, [&](const std::string& key, const json& person) {
    other = other || (key != handle && is_active_owner(person));
  });
  return other;
}

bool has_owner(const std::vector<Role>& roles) {
  return std::find(roles.begin(), roles.end(), Role::owner) != roles.end();
}

json role_names(const std::vector<Role>& roles) {
  json names = json::array();
  for (const Role role : {Role::technician, Role::owner, Role::safety_officer})
    if (std::find(roles.begin(), roles.end(), role) != roles.end()) names.push_back(role_name(role));
  return names;
}

Result<void> check_roles(const std::vector<Role>& roles) {
  if (!roles.empty()) return {};
  return fail(ErrorCode::missing_value, "no role is given", "--role",
              "write --role technician, --role owner or --role safety-officer; several are allowed");
}

Result<void> check_owner_left(const DeskContext& context, const json& person) {
  if (!is_active_owner(person) || another_owner(context.documents, person.at("handle"))) return {};
  return fail(ErrorCode::wrong_state,
              fmt::format("{} is the last owner", person.at("handle").get<std::string>()), {},
              "make somebody else an owner first");
}

Result<void> check_handle_free(const DeskContext& context, const std::string& handle) {
  const auto person = context.documents.get("person", handle);
  if (!person || !person->value("active", false)) return {};
  return fail(ErrorCode::already_exists, fmt::format("{} is already in the crew", handle), {},
              "take another handle, or change roles with fogwright crew roles");
}

}  // namespace

Result<Role> read_role(std::string_view text, std::string_view where) {
  for (const Role role : {Role::technician, Role::owner, Role::safety_officer})
    if (text == role_name(role)) return role;
  return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a role", text), std::string(where),
              "write technician, owner or safety-officer");
}

Result<Drafts> enrol_person(const DeskContext& context, const Enrolment& enrolment) {
  if (auto ok = first_error({may_make(context, "person-enrolled"), check_name(enrolment.handle, "person", {}),
                             check_handle_free(context, enrolment.handle), check_roles(enrolment.roles)});
      !ok)
    return tl::make_unexpected(ok.error());
  if (nobody_enrolled(context.documents) && !has_owner(enrolment.roles))
    return fail(ErrorCode::wrong_state, "the first person of a book is an owner", "--role",
                "add --role owner; the owner then enrols the others");
  json body = {{"handle", enrolment.handle}, {"roles", role_names(enrolment.roles)}};
  if (!enrolment.details.empty()) body["details"] = enrolment.details;
  return Drafts{draft(context, "person-enrolled", std::move(body))};
}

Result<Drafts> change_roles(const DeskContext& context, const std::string& handle,
                            const std::vector<Role>& roles, const std::string& why) {
  if (auto ok = first_error({may_make(context, "person-roles-changed"), check_roles(roles),
                             check_words(why, "the reason", "--why")});
      !ok)
    return tl::make_unexpected(ok.error());
  const auto person = find_active(context.documents, "person", handle, {});
  if (!person) return tl::make_unexpected(person.error());
  if (!has_owner(roles))
    if (auto ok = check_owner_left(context, *person); !ok) return tl::make_unexpected(ok.error());
  return Drafts{
      draft(context, "person-roles-changed", {{"handle", handle}, {"roles", role_names(roles)}, {"why", why}})};
}

Result<Drafts> retire_person(const DeskContext& context, const std::string& handle, const std::string& why) {
  if (auto ok = first_error({may_make(context, "person-retired"), check_words(why, "the reason", "--why")});
      !ok)
    return tl::make_unexpected(ok.error());
  const auto person = find_active(context.documents, "person", handle, {});
  if (!person) return tl::make_unexpected(person.error());
  if (auto ok = check_owner_left(context, *person); !ok) return tl::make_unexpected(ok.error());
  return Drafts{draft(context, "person-retired", {{"handle", handle}, {"why", why}})};
}

}  // namespace fogwright
