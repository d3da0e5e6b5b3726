// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The addresses of the API. One table says who may do what; it also makes the description of the API.

#include <functional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/desk/job.hpp"
#include "fogwright/store.hpp"
#include "server/asked.hpp"
#include "server/http.hpp"

namespace fogwright::server {

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
  const Head& head;
  const std::vector<std::string>& names;  ///< out of the path
  const std::map<std::string, std::string>& query;
  Moment moment;
};

class Service;
struct Visit;

struct Route {
  const char* method;
  const char* path;  ///< "/api/v1/jobs/{job}"
  const char* id;    ///< name of the operation, for clients, counts and the log
  Access access;
  const char* summary;
  const char* answer;  ///< name of the schema of the answer (src/server/schemas.json); nullptr: text or nothing
  std::vector<Member> members = {};
  std::vector<const char*> query = {};
  const char* kind = nullptr;            ///< the entry that it makes
  bool password = false;                 ///< asks for the password again, as a member of the body
  std::vector<const char*> beside = {};  ///< members that live beside the record, so that they can be erased

  // One of these.
  Result<nlohmann::json> (*view)(const View& view) = nullptr;
  Result<Decision> (*decide)(const DeskContext& context, Asked& asked) = nullptr;
  HttpResponse (*act)(Service& service, Visit& visit) = nullptr;
};

/// All routes, in the order in which they are described.
[[nodiscard]] const std::vector<Route>& routes();
[[nodiscard]] std::vector<Route> reading_routes();  // routes_reading.cpp
[[nodiscard]] std::vector<Route> crew_routes();     // routes_crew.cpp: people, credentials, gear, labels
[[nodiscard]] std::vector<Route> stock_routes();    // routes_stock.cpp
[[nodiscard]] std::vector<Route> job_routes();      // routes_jobs.cpp
[[nodiscard]] std::vector<Route> book_routes();     // routes_book.cpp: entries, checkpoint, proofs
[[nodiscard]] std::vector<Route> audit_routes();    // routes_audit.cpp: departures, retention
[[nodiscard]] std::vector<Route> paper_routes();    // routes_papers.cpp
[[nodiscard]] std::vector<Route> sync_routes();     // routes_sync.cpp
[[nodiscard]] std::vector<Route> people_routes();   // routes_people.cpp: sessions, passwords
[[nodiscard]] std::vector<Route> service_routes();  // routes_service.cpp: health, counts, description, plan

/// The route of a method and a path, with the names that stand in the path. `known_path`: another method has
/// it.
struct Found {
  const Route* route = nullptr;
  std::vector<std::string> names;
  bool known_path = false;
};
[[nodiscard]] Found find_route(std::string_view method, const std::vector<std::string>& segments);

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

}  // namespace fogwright::server
