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

Result<std::shared_ptr<const Label>> adopted_label(const Documents& now, const std::string& product) {
  const auto known = now.get("product", product);
  const auto text = known ? now.get("label", known->at("current").get<std::string>()) : std::nullopt;
  if (!text)
    return fail(ErrorCode::not_found, "no label of that product is adopted", "product",
                "GET /api/v1/products lists them");
  auto label = read_label(text->at("text").get<std::string>(), product);
  if (!label) return tl::make_unexpected(label.error().front());
  return std::make_shared<const Label>(std::move(*label));
}

namespace {

HttpResponse make_a_plan(Service& service, Visit& visit) {
  auto request = read_plan_request(visit.asked.body().at("site"));
  if (!request) return problem(request.error());
  Result<std::shared_ptr<const Label>> label = nullptr;
  {
    const auto reader = service.books().reader();
    reader->read(
        [&](const Documents& now, const Head&) { label = adopted_label(now, visit.asked.text("product")); });
  }
  if (!label) return problem(label.error());
  request->label = *label;
  const auto plan = make_plan(*request);
  return plan ? json_response(200, plan_json(*request, *plan)) : problem(plan.error());
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
      {.method = "POST",
       .path = "/api/v1/plan",
       .id = "makePlan",
       .access = Access::crew,
       .summary = "A plan by an adopted label; nothing is written",
       .answer = "Plan",
       .members = {{"product", MemberType::text, true, "key of the product, e.g. fenmist-rtu"},
                   {"site", MemberType::object, true, "the members of a site file (docs/site-file.md)"}},
       .act = make_a_plan},
  };
}

}  // namespace fogwright::server
