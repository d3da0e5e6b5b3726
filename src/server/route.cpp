// SPDX-License-Identifier: Apache-2.0
#include "server/route.hpp"

#include <algorithm>

namespace fogwright::server {
namespace {

/// The path of a route as segments, once.
const std::vector<std::vector<std::string>>& patterns() {
  static const std::vector<std::vector<std::string>> all = [] {
    std::vector<std::vector<std::string>> list;
    for (const Route& route : routes()) list.push_back(read_target(route.path)->segments);
    return list;
  }();
  return all;
}

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

const std::vector<Route>& routes() {
  static const std::vector<Route> table = [] {
    std::vector<Route> rows;
    for (const auto& part : {service_routes(), people_routes(), reading_routes(), crew_routes(), stock_routes(),
                             job_routes(), book_routes(), audit_routes(), paper_routes(), sync_routes()})
      rows.insert(rows.end(), part.begin(), part.end());
    return rows;
  }();
  return table;
}

Found find_route(std::string_view method, const std::vector<std::string>& segments) {
  Found found;
  for (std::size_t i = 0; i < routes().size(); ++i) {
    std::vector<std::string> names;
    if (!matches(patterns()[i], segments, names)) continue;
    found.known_path = true;
    const Route& route = routes()[i];
    if (route.method != method && !(method == "HEAD" && std::string_view(route.method) == "GET")) continue;
    found.route = &route;
    found.names = std::move(names);
    return found;
  }
  return found;
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

}  // namespace fogwright::server
