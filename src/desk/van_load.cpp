// SPDX-License-Identifier: Apache-2.0
#include <algorithm>

#include "desk/vessels.hpp"
#include "fogwright/desk/views.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr double packaging_share = 0.1;  // assumed

/// In micrograms per millilitre: the part's own density, else the heaviest that the label knows.
double density_of(const json& facts, const std::string& part) {
  std::int64_t heaviest = facts.at("density_ug_ml");
  for (const json& ingredient : facts.at("ingredients")) {
    if (!ingredient.contains("density_ug_ml")) continue;
    const auto density = ingredient["density_ug_ml"].get<std::int64_t>();
    if (ingredient.at("name") == part) return static_cast<double>(density);
    heaviest = std::max(heaviest, density);
  }
  return static_cast<double>(heaviest);
}

Transport transport_of(const json& facts) {
  return {facts.at("hazard_class"), facts.at("packing_group"), facts.at("un_number"),
          facts.at("poison_by_inhalation")};
}

Carried carried(const json& facts, const Vessel& vessel) {
  // 1 uL of 1e6 ug/mL weighs 1 mg.
  const Mass liquid(static_cast<double>(vessel.remaining_ul()) * density_of(facts, vessel.text("part")) / 1e6,
                    unit::milligram);
  return {vessel.id, transport_of(facts), vessel.capacity_ul(),
          (liquid * (1 + packaging_share)).ceil_in(unit::milligram)};
}

}  // namespace

VanLoad van_load(const Documents& documents, const std::string& place) {
  VanLoad van;
  for (const char* kind : {"container", "batch"})
    documents.each(kind, true, [&](const std::string& id, const json& body) {
      const Vessel vessel{kind, id, body};
      if (vessel.text("place") != place) return;
      if (const auto facts = documents.get("label-facts", vessel.text("label_digest")))
        van.load.push_back(carried(*facts, vessel));
      else
        van.findings.push_back(
            {"Its label is not known, so nothing is known about its class.", "49 CFR 173.6(a)(1)", id});
    });
  const auto more = materials_of_trade(van.load);
  van.findings.insert(van.findings.end(), more.begin(), more.end());
  return van;
}

}  // namespace fogwright
