// SPDX-License-Identifier: Apache-2.0
#include "server/http.hpp"

#include <algorithm>

namespace fogwright::server {
std::string HttpRequest::header(std::string_view lower_case_name) const {
  const auto found = headers.find(std::string(lower_case_name));
  return found == headers.end() ? std::string() : found->second;
}

std::string cookie(const HttpRequest& request, std::string_view name) {
  const std::string header = request.header("cookie");
  for (std::string_view part : split(header, ';')) {
    while (!part.empty() && part.front() == ' ') part.remove_prefix(1);
    if (part.starts_with(name) && part.substr(name.size()).starts_with('='))
      return std::string(part.substr(name.size() + 1));
  }
  return {};
}

HttpResponse json_response(int status, const nlohmann::json& body) {
  HttpResponse response;
  response.status = status;
  response.body = body.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace) + '\n';
  return response;
}

void add_security_headers(HttpResponse& response, bool secure) {
  auto& headers = response.headers;
  const auto unless_said = [&headers](const char* name, const char* value) {
    if (std::none_of(headers.begin(), headers.end(), [name](const auto& h) { return h.first == name; }))
      headers.emplace_back(name, value);
  };
  unless_said(
      "Content-Security-Policy",
      // The engine is WebAssembly; photos are shown out of the browser's own store.
      "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; manifest-src 'self'; "
      "connect-src 'self'; img-src 'self' blob:; media-src 'self' blob:; style-src 'self'; "
      "frame-ancestors 'none'; form-action 'self'; base-uri 'none'; object-src 'none'");
  headers.emplace_back("Permissions-Policy",
                       "camera=(self), microphone=(), geolocation=(), payment=(), usb=()");
  headers.emplace_back("X-Content-Type-Options", "nosniff");
  headers.emplace_back("Referrer-Policy", "no-referrer");
  headers.emplace_back("Cross-Origin-Opener-Policy", "same-origin");
  headers.emplace_back("Cross-Origin-Resource-Policy", "same-origin");
  if (secure) headers.emplace_back("Strict-Transport-Security", "max-age=63072000");
  unless_said("Cache-Control", "no-store");
}

}  // namespace fogwright::server
