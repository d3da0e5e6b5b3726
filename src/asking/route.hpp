// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What can be asked, and what it becomes: each address with its members, and the function that decides it.
/// Sockets, stores and sessions are nowhere in it, so that the server and the pages answer alike.

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "asking/asked.hpp"
#include "asking/target.hpp"
#include "fogwright/desk/job.hpp"

namespace fogwright {

namespace server {  // what a row of the server's own is answered by; not known here
class Service;
struct Visit;
struct HttpResponse;
}  // namespace server

/// Who may use a route. What is written is in addition decided by the desk, for each kind of entry.
enum class Access {
  open,      ///< anybody
  here,      ///< this machine itself
  crew,      ///< whoever is signed in and active in the crew
  owner,     ///< owners
  by_entry,  ///< whoever may make the entry `kind` (src/desk/permissions.cpp)
};

/// What a reader gets.
struct View {
  const Documents& now;
  std::int64_t size;                      ///< entries that the documents stand for
  const std::vector<std::string>& names;  ///< out of the path
  const std::map<std::string, std::string>& query;
  Moment moment;
};

struct Route {
  const char* method;
  const char* path;  ///< "/api/v1/jobs/{job}"
  const char* id;    ///< name of the operation, for clients, counts and the log
  Access access;
  const char* summary;
  const char* answer;  ///< name of the schema of the answer (src/server/schemas.cpp); nullptr: text or nothing
  std::vector<Member> members = {};
  std::vector<const char*> query = {};
  const char* kind = nullptr;            ///< the entry that it makes
  bool password = false;                 ///< asks for the password again, as a member of the body
  std::vector<const char*> beside = {};  ///< members that live beside the record, so that they can be erased
  const char* counted = nullptr;         ///< member that names the thing; not given, the desk counts
  bool of_entry = false;                 ///< the name in the path is the id of an entry, which is handed along

  /// All that is wrong with what is asked, where the desk would tell the first fault alone.
  Faults (*check)(const Asked& asked) = nullptr;

  // One of these.
  Result<nlohmann::json> (*view)(const View& view) = nullptr;
  Result<Decision> (*decide)(const DeskContext& context, Asked& asked) = nullptr;
  /// Worked out of what is asked; nothing is written.
  tl::expected<nlohmann::json, Faults> (*work)(const Documents& now, const Asked& asked) = nullptr;
  server::HttpResponse (*act)(server::Service& service, server::Visit& visit) = nullptr;
};

/// The routes that need nothing but documents.
[[nodiscard]] std::vector<Route> asked_routes();
/// Of these what a device answers by itself, where there is no network.
[[nodiscard]] std::vector<Route> routes_offline();
[[nodiscard]] std::vector<Route> reading_routes();  // routes_reading.cpp
[[nodiscard]] std::vector<Route> crew_routes();     // routes_crew.cpp: people, registers, labels, notes
[[nodiscard]] std::vector<Route> gear_routes();     // routes_gear.cpp
[[nodiscard]] std::vector<Route> stock_routes();    // routes_stock.cpp
[[nodiscard]] std::vector<Route> job_routes();      // routes_jobs.cpp
[[nodiscard]] std::vector<Route> plan_routes();     // routes_plan.cpp: a plan that nobody writes down

/// The route of a method and a path, with the names that stand in the path. `known_path`: another method has
/// it.
struct Found {
  const Route* route = nullptr;
  std::vector<std::string> names;
  bool known_path = false;
};

class RouteTable {
 public:
  explicit RouteTable(std::vector<Route> rows);
  [[nodiscard]] const std::vector<Route>& rows() const { return rows_; }
  [[nodiscard]] Found find(std::string_view method, const std::vector<std::string>& segments) const;

 private:
  std::vector<Route> rows_;
  std::vector<std::vector<std::string>> patterns_;  ///< the path of each row as segments
};

/// Whether somebody with these roles may use the route; the one place where that is decided.
[[nodiscard]] bool may_use(const Route& route, const std::vector<std::string>& roles);
/// What somebody is told who may not: also which role it takes.
[[nodiscard]] nlohmann::json access_refusal(const Route& route, const std::vector<std::string>& roles);
/// The roles of somebody who is active in the crew; empty else.
[[nodiscard]] std::vector<std::string> roles_in(const Documents& now, const std::string& handle);

/// Errors: not_understood, for a member of the query that the route doesn't know.
[[nodiscard]] Result<void> check_query(const std::map<std::string, std::string>& query, const Route& route);

using Answer = Result<Decision>;
/// What a request that cannot be refused decides.
[[nodiscard]] Answer decided(Result<Drafts> drafts);
/// Where a member could not be read nothing is asked of the desk.
template <class Make>
[[nodiscard]] Answer after(const Asked& asked, Make make) {
  if (asked.fault()) return tl::make_unexpected(*asked.fault());
  return decided(make());
}
/// A POST that makes entries, of which one has this kind.
[[nodiscard]] Route writing(const char* path, const char* id, const char* kind, const char* summary,
                            std::vector<Member> members,
                            Answer (*decide)(const DeskContext& context, Asked& asked));

}  // namespace fogwright
