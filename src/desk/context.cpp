// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/context.hpp"

namespace fogwright {

NewEntry draft(const DeskContext& context, std::string kind, nlohmann::json body) {
  NewEntry entry;
  entry.id = context.new_id();
  entry.happened_ms = context.now_ms;
  entry.actor = context.actor;
  entry.device = context.device;
  entry.kind = std::move(kind);
  entry.body = std::move(body);
  return entry;
}

std::string_view role_name(Role role) noexcept {
  switch (role) {
    case Role::technician:
      return "technician";
    case Role::owner:
      return "owner";
    case Role::safety_officer:
      return "safety-officer";
  }
  return "";
}

}  // namespace fogwright
