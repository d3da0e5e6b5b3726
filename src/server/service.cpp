// SPDX-License-Identifier: Apache-2.0
#include "server/service.hpp"

#include "asking/ids.hpp"
#include "server/access.hpp"
#include "server/pages.hpp"
#include "server/problem.hpp"
#include "server/writing.hpp"

namespace fogwright::server {
namespace {

using nlohmann::json;

bool changes(const std::string& method) { return method != "GET" && method != "HEAD"; }

HttpResponse not_this_method(const std::vector<std::string>& segments) {
  std::string allowed;
  for (const char* method : {"GET", "POST", "PUT", "DELETE"})
    if (route_table().find(method, segments).route)
      allowed += (allowed.empty() ? "" : ", ") + std::string(method);
  HttpResponse response =
      problem(405, "bad-usage", "this address does not take that method", "it takes " + allowed);
  response.headers.emplace_back("Allow", allowed);
  return response;
}

/// What the body may hold, with the password where the route asks for it again.
std::vector<Member> members_of(const Route& route) {
  std::vector<Member> members = route.members;
  if (route.password) members.push_back({"password", MemberType::text, true, "your password, once more"});
  return members;
}

bool is_json(const HttpRequest& request) {
  const std::string type = request.header("content-type");
  return request.body.empty() || type == "application/json" || type.starts_with("application/json;");
}

bool etag_matches(const std::string& header, const std::string& etag) {
  return header == "*" || header.find(etag) != std::string::npos;
}

}  // namespace

HttpResponse Service::fault(const std::exception& what, ErrorCode code) {
  log_({{"event", "fault"}, {"code", code_name(code)}, {"what", what.what()}});
  return problem(Error{code, what.what(), {}, {}});
}

HttpResponse Service::handle(const HttpRequest& request) noexcept {
  try {
    return dispatch(request);
  } catch (const StorageFault& what) {
    return fault(what, what.code());
  } catch (const std::exception& what) {
    return fault(what, ErrorCode::internal_fault);
  }
}

HttpResponse Service::dispatch(const HttpRequest& request) {
  if (auto ok = check_host(request, settings_.hosts); !ok)
    return problem(421, "bad-usage", ok.error().message, ok.error().hint);
  const auto target = read_target(request.target);
  if (!target) return problem(target.error());
  Found found = route_table().find(request.method, target->segments);
  if (!found.route && found.known_path) return not_this_method(target->segments);
  if (!found.route && !changes(request.method)) return page_response(request, *target);
  if (!found.route)
    return problem(404, "not-found", "there is nothing at this address", "see /api/openapi.json");
  Visit visit{request, *target, *found.route, Asked(std::move(found.names), {}), {}};
  HttpResponse response = enter(visit);
  response.operation = found.route->id;
  if (visit.person) response.actor = visit.person->handle;
  return response;
}

/// Who it is, whether they may, and whether it is they who ask; only then what they ask.
HttpResponse Service::enter(Visit& visit) {
  const HttpRequest& request = visit.request;
  visit.session_token = cookie(request, session_cookie);
  visit.person = accounts_.signed_in(visit.session_token);
  if (visit.person) visit.roles = roles_of(visit.person->handle);
  if (auto refused = refuse_access(visit)) return std::move(*refused);
  if (changes(request.method)) {
    if (auto ok = check_same_site(request); !ok) return problem(ok.error());
    if (visit.person && visit.route.access != Access::open)
      if (auto ok = check_csrf(request, visit.session_token); !ok) return problem(ok.error());
    if (!is_json(request))
      return problem(415, "bad-usage", "the body is not JSON", "send Content-Type: application/json");
  }
  if (auto ok = check_query(visit.target.query, visit.route); !ok) return problem(ok.error());
  auto body = body_of(request.body, members_of(visit.route));
  if (!body) return problem(body.error());
  if (visit.route.password) {
    const std::string password = (*body)["password"];
    body->erase("password");
    if (auto refused = refuse_password(visit.person->handle, password, request.remote))
      return std::move(*refused);
  }
  visit.asked = Asked(visit.asked.names(), std::move(*body));
  if (visit.route.check)
    if (const Faults faults = visit.route.check(visit.asked); !faults.empty()) return problem(faults);
  if (visit.route.act) return visit.route.act(*this, visit);
  if (visit.route.work) return work(visit);
  return visit.route.view ? read(visit) : write_entry(*this, visit);
}

HttpResponse Service::read(Visit& visit) {
  Result<json> shown = json();
  const auto reader = books_.reader();
  reader->read([&](const Documents& now, const Head& head) {
    shown = visit.route.view(
        {now, head.size, visit.asked.names(), visit.target.query, {world_.now_ms(), world_.boot_clock()}});
  });
  if (!shown) return problem(shown.error());
  HttpResponse response = json_response(200, *shown);
  const std::string etag = "\"" + digest_hex(response.body).substr(0, 32) + "\"";
  response.headers.emplace_back("ETag", etag);
  response.headers.emplace_back("Cache-Control", "private, no-cache");
  if (!etag_matches(visit.request.header("if-none-match"), etag)) return response;
  response.status = 304;
  response.body.clear();
  return response;
}

HttpResponse Service::work(Visit& visit) {
  tl::expected<json, Faults> made = json();
  books_.reader()->read([&](const Documents& now, const Head&) { made = visit.route.work(now, visit.asked); });
  return made ? json_response(200, *made) : problem(made.error());
}

std::vector<std::string> Service::roles_of(const std::string& handle) {
  std::vector<std::string> roles;
  const auto reader = books_.reader();
  reader->read([&](const Documents& now, const Head&) { roles = roles_in(now, handle); });
  return roles;
}

DeskContext Service::context(const Documents& now, const std::string& actor, const std::string& device,
                             const Uuid& first_id) {
  return {now,
          actor,
          device,
          world_.now_ms(),
          world_.boot_clock(),
          [first_id, number = std::uint32_t{0}]() mutable { return derived_id(first_id, number++); }};
}

std::optional<HttpResponse> Service::refuse_password(const std::string& handle, const std::string& password,
                                                     const std::string& remote) {
  const auto checked = accounts_.check_password(handle, password, remote);
  if (!checked) return problem(checked.error());
  if (checked->check == Accounts::Check::right) return std::nullopt;
  ++metrics_.sign_ins_refused;
  log_({{"event", "password-refused"}, {"handle", handle.substr(0, 64)}, {"remote", remote}});
  if (checked->check == Accounts::Check::wrong)
    return problem(403, "not-permitted", "the name or the password is wrong",
                   "an owner can send a new invitation");
  HttpResponse response = problem(429, "not-permitted", "too many attempts", "wait, then try again");
  response.headers.emplace_back("Retry-After", std::to_string((checked->wait_ms + 999) / 1'000));
  return response;
}

}  // namespace fogwright::server
