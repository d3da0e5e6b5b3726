// SPDX-License-Identifier: Apache-2.0
#include "asking/route.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "asking/problem.hpp"
#include "fogwright/desk/permissions.hpp"

namespace fogwright {
namespace {

bool is_name(std::string_view segment) { return segment.starts_with('{'); }

bool matches(const std::vector<std::string>& pattern, const std::vector<std::string>& segments,
             std::vector<std::string>& names) {
  if (pattern.size() != segments.size()) return false;
  for (std::size_t i = 0; i < pattern.size(); ++i) {
    if (is_name(pattern[i])) {
      if (segments[i].empty()) return false;
      names.push_back(segments[i]);
    } else if (pattern[i] != segments[i]) {
      return false;
    }
  }
  return true;
}

}  // namespace

RouteTable::RouteTable(std::vector<Route> rows) : rows_(std::move(rows)) {
  for (const Route& route : rows_) patterns_.push_back(read_target(route.path)->segments);
}

Found RouteTable::find(std::string_view method, const std::vector<std::string>& segments) const {
  Found found;
  for (std::size_t i = 0; i < rows_.size(); ++i) {
    std::vector<std::string> names;
    if (!matches(patterns_[i], segments, names)) continue;
    found.known_path = true;
    const Route& route = rows_[i];
    if (route.method != method && !(method == "HEAD" && std::string_view(route.method) == "GET")) continue;
    found.route = &route;
    found.names = std::move(names);
    return found;
  }
  return found;
}

bool may_use(const Route& route, const std::vector<std::string>& roles) {
  switch (route.access) {
    case Access::open:
    case Access::here:
      return true;
    case Access::crew:
      return !roles.empty();
    case Access::owner:
      return std::find(roles.begin(), roles.end(), role_name(Role::owner)) != roles.end();
    case Access::by_entry:
      return roles_may_make(roles, route.kind);
  }
  return false;
}

nlohmann::json access_refusal(const Route& route, const std::vector<std::string>& roles) {
  if (roles.empty())
    return problem_details(403, "not-permitted", "you are no longer in the active crew", {}, "ask an owner");
  const std::string takes =
      route.access == Access::by_entry ? roles_that_may_make(route.kind) : std::string(role_name(Role::owner));
  return problem_details(403, "not-permitted", "your role does not allow this", {},
                         fmt::format("it takes the role {}", takes));
}

std::vector<std::string> roles_in(const Documents& now, const std::string& handle) {
  const auto person = now.get("person", handle);
  if (!person || !person->value("active", false)) return {};
  return person->at("roles").get<std::vector<std::string>>();
}

Result<void> check_query(const std::map<std::string, std::string>& query, const Route& route) {
  for (const auto& [name, value] : query)
    if (std::none_of(route.query.begin(), route.query.end(),
                     [&n = name](const char* known) { return n == known; }))
      return fail(ErrorCode::not_understood, "there is no such member of the query", name, "leave it out");
  return {};
}

Answer decided(Result<Drafts> drafts) {
  if (!drafts) return tl::make_unexpected(drafts.error());
  return Decision{std::move(*drafts), {}};
}

Route writing(const char* path, const char* id, const char* kind, const char* summary,
              std::vector<Member> members, Answer (*decide)(const DeskContext& context, Asked& asked)) {
  return {.method = "POST",
          .path = path,
          .id = id,
          .access = Access::by_entry,
          .summary = summary,
          .answer = "Written",
          .members = std::move(members),
          .kind = kind,
          .decide = decide};
}

}  // namespace fogwright
