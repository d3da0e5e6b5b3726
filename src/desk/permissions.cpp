// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>
#include <span>

#include "desk/checks.hpp"
#include "fogwright/desk/permissions.hpp"

namespace fogwright {
namespace {

constexpr unsigned bit(Role role) { return 1U << static_cast<unsigned>(role); }
constexpr unsigned technician = bit(Role::technician);
constexpr unsigned owner = bit(Role::owner);
constexpr unsigned safety_officer = bit(Role::safety_officer);
constexpr unsigned anyone = technician | owner | safety_officer;

struct Permission {
  std::string_view kind;
  unsigned roles;
};

/// Who may make which entry. The gate decides beside this whether the entry may be made now.
constexpr Permission permissions[] = {
    {"person-enrolled", owner},
    {"person-roles-changed", owner},
    {"person-retired", owner},
    {"credential-added", owner | safety_officer},
    {"credential-withdrawn", owner | safety_officer},
    {"firm-named", owner},
    {"private-erased", owner | safety_officer},
    {"fogger-added", owner | technician},
    {"fogger-tested", anyone},
    {"fogger-retired", owner | safety_officer},
    {"cartridge-registered", safety_officer},
    {"cartridge-used", anyone},
    {"cartridge-retired", anyone},
    {"label-adopted", owner | safety_officer},
    {"label-retired", owner | safety_officer},
    {"place-added", owner},
    {"container-received", anyone},
    {"container-corrected", anyone},
    {"container-moved", anyone},
    {"container-opened", anyone},
    {"drawn", anyone},
    {"batch-mixed", technician},
    {"returned", anyone},
    {"spilled", anyone},
    {"disposed", anyone},
    {"counted", anyone},
    {"storage-read", anyone},
    {"reorder-set", owner},
    {"job-planned", anyone},
    {"plan-checked", anyone},
    {"clock-checked", anyone},
    {"requirement-met", anyone},
    {"requirement-lapsed", anyone},
    {"start-refused", anyone},
    {"job-cleared", technician},
    {"fog-started", technician},
    {"return-fogged", technician},
    {"fog-ended", technician},
    {"reading-taken", technician | safety_officer},
    {"release-refused", anyone},
    {"job-released", technician | safety_officer},
    {"job-closed", technician},
    {"job-stopped", anyone},
    {"job-recorded", anyone},
    {"note", anyone},
};

/// `texts`: a list of texts, as JSON or not.
template <class Names>
unsigned roles_in(const Names& texts) {
  unsigned roles = 0;
  for (const auto& name : texts)
    for (Role role : {Role::technician, Role::owner, Role::safety_officer})
      if (name == role_name(role)) roles |= bit(role);
  return roles;
}

std::string words_of(unsigned roles) {
  std::string words;
  for (Role role : {Role::technician, Role::owner, Role::safety_officer})
    if ((roles & bit(role)) != 0) words += (words.empty() ? "" : " or ") + std::string(role_name(role));
  return words;
}

const Permission* permission_of(std::string_view kind) {
  const auto* const row = std::find_if(std::begin(permissions), std::end(permissions),
                                       [&](const Permission& p) { return p.kind == kind; });
  return row == std::end(permissions) ? nullptr : row;
}

}  // namespace

bool role_may_make(Role role, std::string_view kind) noexcept {
  const Permission* const row = permission_of(kind);
  return row != nullptr && (row->roles & bit(role)) != 0;
}

bool roles_may_make(const std::vector<std::string>& roles, std::string_view kind) {
  const Permission* const row = permission_of(kind);
  return row != nullptr && (row->roles & roles_in(roles)) != 0;
}

std::string roles_that_may_make(std::string_view kind) {
  const Permission* const row = permission_of(kind);
  return row == nullptr ? std::string() : words_of(row->roles);
}

Result<void> may_make(const DeskContext& context, std::string_view kind) {
  // The first person of a book enrols as its owner; nobody is there to ask.
  if (kind == "person-enrolled" && nobody_enrolled(context.documents)) return {};
  const auto person = context.documents.get("person", context.actor);
  if (!person || !person->value("active", false))
    return fail(ErrorCode::not_found, fmt::format("nobody in the active crew is called \"{}\"", context.actor),
                "--by", "the owner enrols people with fogwright crew enrol");
  const Permission* const row = permission_of(kind);
  if (row == nullptr)
    return fail(ErrorCode::internal_fault, fmt::format("no permission is set for {}", kind), {},
                "this is a defect of the program");
  if ((roles_in(person->value("roles", nlohmann::json::array())) & row->roles) == 0)
    return fail(ErrorCode::not_permitted, fmt::format("{} may not make this entry ({})", context.actor, kind),
                "--by", fmt::format("it takes the role {}", words_of(row->roles)));
  return {};
}

}  // namespace fogwright
