// SPDX-License-Identifier: Apache-2.0
#include "server/openapi.hpp"
#include "server/problem.hpp"
#include "server/service.hpp"

namespace fogwright::server {
namespace {

using nlohmann::json;

HttpResponse health(Service& service, Visit& visit) {
  (void)visit;
  const auto reader = service.books().reader();
  HttpResponse response = json_response(200, {{"status", "pass"}, {"entries", reader->head().size}});
  response.content_type = "application/health+json";
  return response;
}

HttpResponse counts(Service& service, Visit& visit) {
  (void)visit;
  HttpResponse response;
  response.content_type = "text/plain; version=0.0.4; charset=utf-8";
  response.body = service.metrics().text();
  return response;
}

HttpResponse description(Service& service, Visit& visit) {
  (void)service, (void)visit;
  HttpResponse response = json_response(200, openapi_document());
  response.headers.emplace_back("Cache-Control", "public, max-age=300");
  return response;
}

}  // namespace

std::vector<Route> service_routes() {
  return {
      {.method = "GET",
       .path = "/health",
       .id = "health",
       .access = Access::open,
       .summary = "Whether the server answers and reads its book",
       .answer = "Health",
       .act = health},
      {.method = "GET",
       .path = "/metrics",
       .id = "metrics",
       .access = Access::here,
       .summary = "Counts in the text format of Prometheus; to this machine alone",
       .answer = nullptr,
       .act = counts},
      {.method = "GET",
       .path = "/api/openapi.json",
       .id = "describe",
       .access = Access::open,
       .summary = "This description",
       .answer = "Any",
       .act = description},
  };
}

}  // namespace fogwright::server
