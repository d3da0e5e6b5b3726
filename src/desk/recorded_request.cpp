// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/replan.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

LiquidFlow flow(const json& test, const char* member) {
  return {static_cast<double>(test.at(member).get<std::int64_t>()), unit::microlitre_per_minute};
}

/// A catch test, as a plan takes it.
Calibration calibration_of(const json& test) {
  Calibration c;
  c.flow = flow(test, "flow_ul_min");
  c.low = flow(test, "low_ul_min");
  c.high = flow(test, "high_ul_min");
  c.relative_spread = static_cast<double>(test.at("spread_ppm").get<std::int64_t>()) / 1e6;
  c.runs = test.at("runs").get<int>();
  c.large_spread = c.relative_spread > 0.10 || c.runs < 3;
  return c;
}

tl::expected<void, Faults> add_limits(const json& texts, const RequestPlaces& places, PlanRequest& request) {
  std::vector<EnteredLimit> all;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const std::string file = i < places.limits_files.size() ? places.limits_files[i] : "limits file";
    const auto limits = read_limits(texts[i].get<std::string>(), file);
    if (!limits) return tl::make_unexpected(limits.error());
    all.insert(all.end(), limits->begin(), limits->end());
  }
  if (!all.empty()) request.entered_limits = std::make_shared<const std::vector<EnteredLimit>>(std::move(all));
  return {};
}

}  // namespace

tl::expected<PlanRequest, Faults> read_recorded_request(const json& recorded, const RequestPlaces& places) {
  Overlay overlay;
  overlay.members = recorded.value("members", json::object());
  overlay.bare_numbers = recorded.value("bare_numbers", false);
  overlay.names = places.options;
  auto request = read_site(recorded.value("site_file", std::string()), places.site_file, overlay);
  if (!request) return request;
  if (auto ok = add_limits(recorded.value("limits", json::array()), places, *request); !ok)
    return tl::make_unexpected(std::move(ok.error()));
  add_fogger_facts(recorded.value("fogger", json::object()), *request);
  return request;
}

json fogger_facts(const Documents& documents, const std::string& fogger) {
  json facts = json::object();
  const auto known = documents.get("fogger", fogger);
  if (!known) return facts;
  for (const char* member : {"tank_ul", "empty_mg"})
    if (known->contains(member)) facts[member] = known->at(member);
  if (!known->at("tests").empty()) facts["test"] = known->at("tests").back();
  return facts;
}

void add_fogger_facts(const json& facts, PlanRequest& request) {
  if (!request.calibration && facts.contains("test")) request.calibration = calibration_of(facts["test"]);
  if (!request.fogger.tank && facts.contains("tank_ul"))
    request.fogger.tank = LiquidVolume(facts["tank_ul"].get<double>(), unit::microlitre);
  if (!request.fogger.empty_mass && facts.contains("empty_mg"))
    request.fogger.empty_mass = Mass(facts["empty_mg"].get<double>(), unit::milligram);
}

}  // namespace fogwright
