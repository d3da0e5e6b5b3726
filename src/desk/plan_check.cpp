// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/plan_check.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "desk/readable.hpp"
#include "fogwright/desk/job.hpp"
#include "fogwright/desk/replan.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

tl::expected<json, Faults> plan_again(const Documents& documents, const json& planned) {
  auto request = read_recorded_request(planned.at("request"));
  if (!request) return tl::make_unexpected(std::move(request.error()));
  const auto text = documents.get("label", planned.at("label_digest").get<std::string>());
  if (!text)
    return tl::make_unexpected(
        Faults{{ErrorCode::not_found, "the book has no such label", "label_digest", {}}});
  auto label = read_label(text->at("text").get<std::string>(), planned.at("product").get<std::string>());
  if (!label) return tl::make_unexpected(std::move(label.error()));
  request->label = std::make_shared<const Label>(std::move(*label));
  const auto plan = make_plan(*request);
  if (!plan) return tl::make_unexpected(Faults{plan.error()});
  return plan_snapshot(*plan);
}

json differences_of(const json& recorded, const json& made) {
  json list = json::array();
  for (const auto& [name, value] : made.items())
    if (recorded.value(name, json()) != value)
      list.push_back(fmt::format("{}: {} on the device, {} here", name,
                                 recorded.contains(name) ? recorded[name].dump().substr(0, 200) : "nothing",
                                 value.dump().substr(0, 200)));
  return list;
}

void take_least(json& number, const json& other) { number = std::min(number, other); }

void add_longer_hold(json& hold, const json& other) {
  for (const auto& [name, value] : other.items())
    if (!hold.contains(name) || (value.is_number() && hold[name] < value) || value == true) hold[name] = value;
}

void take_shorter_dose(json& systems, const json& other) {
  for (std::size_t i = 0; i < std::min(systems.size(), other.size()); ++i) {
    take_least(systems[i]["target_s"], other[i].at("target_s"));
    json& returns = systems[i]["returns"];
    const json& others = other[i].at("returns");
    for (std::size_t k = 0; k < std::min(returns.size(), others.size()); ++k)
      take_least(returns[k]["seconds"], others[k].at("seconds"));
  }
}

/// Rows of `other` that are not there yet, by the member that names them.
void add_missing(json& list, const json& other, const char* name) {
  for (const json& row : other)
    if (std::none_of(list.begin(), list.end(),
                     [&](const json& mine) { return mine.value(name, json()) == row.at(name); }))
      list.push_back(row);
}

void take_lower_limits(json& limits, const json& other) {
  add_missing(limits, other, "cas");
  for (json& mine : limits)
    for (const json& row : other)
      if (row.at("cas") == mine.at("cas")) take_least(mine["occupant_ug_m3"], row.at("occupant_ug_m3"));
}

}  // namespace

std::optional<json> check_plan(const Documents& documents, const json& planned) {
  json checked = {{"job", planned.value("job", json())}};
  if (const auto why = why_unreadable([&] {
        const auto made = plan_again(documents, planned);
        if (!made) {
          checked["differences"] = {"it cannot be planned here: " + made.error().front().message};
        } else if (*made != planned.at("plan")) {
          checked["differences"] = differences_of(planned.at("plan"), *made);
          checked["plan"] = *made;
        }
      }))
    checked["differences"] = {"it cannot be read: " + *why};
  if (!checked.contains("differences")) return std::nullopt;
  return checked;
}

json more_cautious(json plan, const json& other, bool begun) {
  add_longer_hold(plan["hold_minutes"], other.at("hold_minutes"));
  take_lower_limits(plan["limits"], other.at("limits"));
  if (begun) return plan;
  take_shorter_dose(plan["systems"], other.at("systems"));
  add_missing(plan["requirements"], other.at("requirements"), "id");
  if (plan["respirator"].at("factor") < other.at("respirator").at("factor"))
    plan["respirator"] = other.at("respirator");
  return plan;
}

}  // namespace fogwright
