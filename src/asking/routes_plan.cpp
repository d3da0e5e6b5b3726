// SPDX-License-Identifier: Apache-2.0
#include "asking/adopted_label.hpp"
#include "asking/route.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

tl::expected<json, Faults> make_a_plan(const Documents& now, const Asked& asked) {
  auto request = read_plan_request(asked.body().at("site"));
  if (!request) return tl::make_unexpected(std::move(request.error()));
  auto label = adopted_label(now, asked.text("product"));
  if (!label) return tl::make_unexpected(Faults{std::move(label.error())});
  request->label = std::move(label->label);
  const auto plan = make_plan(*request);
  if (!plan) return tl::make_unexpected(Faults{plan.error()});
  return plan_json(*request, *plan);
}

}  // namespace

std::vector<Route> plan_routes() {
  return {{.method = "POST",
           .path = "/api/v1/plan",
           .id = "makePlan",
           .access = Access::crew,
           .summary = "A plan by an adopted label; nothing is written",
           .answer = "Plan",
           .members = {{"product", MemberType::text, true, "key of the product, e.g. fenmist-rtu"},
                       {"site", MemberType::object, true, "the members of a site file (docs/site-file.md)"}},
           .work = make_a_plan}};
}

}  // namespace fogwright
