// SPDX-License-Identifier: Apache-2.0
#include "browser/answer.hpp"

#include <memory>
#include <utility>

#include "fogwright/plan.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

tl::expected<PlanRequest, Faults> read_request(std::string_view text) {
  const json parsed = json::parse(text, nullptr, false);
  if (!parsed.is_discarded()) return read_plan_request(parsed);
  return tl::make_unexpected(Faults{{ErrorCode::not_understood, "the request is not JSON", "request",
                                     "send a JSON object with the members of a site file"}});
}

tl::expected<PlanRequest, Faults> read_both(std::string_view request_json, std::string_view label_toml) {
  auto request = read_request(request_json);
  auto label = read_label(label_toml, "label");
  if (request && label) {
    request->label = std::make_shared<const Label>(std::move(*label));
    return request;
  }
  Faults faults;
  if (!request) faults = std::move(request.error());
  if (!label) faults.insert(faults.end(), label.error().begin(), label.error().end());
  return tl::make_unexpected(std::move(faults));
}

json answer(std::string_view request_json, std::string_view label_toml) {
  const auto request = read_both(request_json, label_toml);
  if (!request) return faults_json(request.error());
  const auto plan = make_plan(*request);
  if (!plan) return faults_json({plan.error()});
  return {{"plan", plan_json(*request, *plan)}};
}

}  // namespace

std::string plan_answer(std::string_view request_json, std::string_view label_toml) {
  return answer(request_json, label_toml).dump(-1, ' ', false, json::error_handler_t::replace);
}

}  // namespace fogwright
