// SPDX-License-Identifier: Apache-2.0
#include "browser/calls.hpp"

#include "asking/problem.hpp"
#include "desk/readable.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

json value_or_error(const Result<void>& done) {
  if (done) return {{"value", nullptr}};
  return {{"error", done.error().message + "; " + done.error().hint}};
}

/// A request that cannot be answered is answered all the same, as the server does.
json ask(DeviceDesk& desk, const json& request) {
  json answer;
  if (why_unreadable([&] { answer = desk.ask(request); })) {
    json body = problem_details(500, "internal-fault", "this device could not do this", {}, "ask the server");
    answer = {{"status", 500}, {"body", std::move(body)}, {"entries", json::array()}};
  }
  return answer;
}

json called(DeviceDesk& desk, const json& call) {
  const std::string name = call.value("call", std::string());
  if (name == "ask") return {{"value", ask(desk, call.at("request"))}};
  if (name == "fold") return value_or_error(desk.fold(call.at("entry")));
  if (name == "restore")
    return value_or_error(desk.restore(call.at("documents"), call.at("size").get<std::int64_t>()));
  if (name == "drop") {
    desk.drop(call.at("id").get<std::string>());
    return {{"value", nullptr}};
  }
  if (name == "answers")
    return {{"value", desk.answers(call.at("method").get<std::string>(), call.at("path").get<std::string>())}};
  if (name == "snapshot") return {{"value", desk.snapshot()}};
  if (name == "size") return {{"value", desk.size()}};
  return {{"error", "there is no such call"}};
}

}  // namespace

std::string desk_call(DeviceDesk& desk, std::string_view call_json) {
  json answer;
  const json call = json::parse(call_json, nullptr, false);
  if (call.is_discarded() || !call.is_object())
    answer = {{"error", "the call is not JSON"}};
  else if (const auto why = why_unreadable([&] { answer = called(desk, call); }))
    answer = {{"error", "the call cannot be read: " + *why}};
  return answer.dump(-1, ' ', false, json::error_handler_t::replace);
}

}  // namespace fogwright
