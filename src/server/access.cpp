// SPDX-License-Identifier: Apache-2.0
#include "server/access.hpp"

#include <algorithm>

#include "server/problem.hpp"

namespace fogwright::server {
namespace {

constexpr auto open_the_page = "open the page anew and try again";

/// "example.com" of "example.com:8443", "::1" of "[::1]:8443".
std::string host_name(const std::string& host) {
  if (host.starts_with('[')) return host.substr(1, host.find(']') - 1);
  return host.substr(0, host.find(':'));
}

/// Equal in a time that tells nothing about where they differ.
bool same_secret(const std::string& a, const std::string& b) {
  unsigned difference = a.size() == b.size() ? 0U : 1U;
  for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i)
    difference |= static_cast<unsigned>(static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(b[i]));
  return difference == 0;
}

}  // namespace

Result<void> check_host(const HttpRequest& request, const std::vector<std::string>& hosts) {
  if (hosts.empty()) return {};
  const std::string host = host_name(request.header("host"));
  if (std::find(hosts.begin(), hosts.end(), host) != hosts.end()) return {};
  return fail(ErrorCode::not_permitted, "this server does not go by that name", "Host",
              "name it with --host when the server is started");
}

std::optional<HttpResponse> refuse_access(const Visit& visit) {
  const Route& route = visit.route;
  if (route.access == Access::open) return std::nullopt;
  if (route.access == Access::here) {
    if (visit.request.local) return std::nullopt;
    return problem(404, "not-found", "there is nothing at this address", "see /api/openapi.json");
  }
  if (!visit.person)
    return problem(401, "not-permitted", "nobody is signed in", "sign in: POST /api/v1/session");
  if (may_use(route, visit.roles)) return std::nullopt;
  return problem(access_refusal(route, visit.roles));
}

Result<void> check_same_site(const HttpRequest& request) {
  const std::string site = request.header("sec-fetch-site");
  if (!site.empty() && site != "same-origin" && site != "none")
    return fail(ErrorCode::not_permitted, "another site's page asked for this", "Sec-Fetch-Site",
                open_the_page);
  const std::string origin = request.header("origin");
  if (origin.empty()) return {};
  const auto scheme = origin.find("://");
  if (scheme != std::string::npos && origin.substr(scheme + 3) == request.header("host")) return {};
  return fail(ErrorCode::not_permitted, "another site's page asked for this", "Origin", open_the_page);
}

Result<void> check_csrf(const HttpRequest& request, const std::string& session_token) {
  if (same_secret(request.header("x-csrf-token"), Accounts::csrf_token(session_token))) return {};
  return fail(ErrorCode::not_permitted, "the change does not carry the token of the session", "X-CSRF-Token",
              "send the token that GET /api/v1/session gives");
}

}  // namespace fogwright::server
