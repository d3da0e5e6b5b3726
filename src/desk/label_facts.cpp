// SPDX-License-Identifier: Apache-2.0
#include "desk/label_facts.hpp"

#include <cmath>
#include <set>

#include "dose/naming.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

void put_life(json& facts, const char* member, const std::optional<ShelfTime>& life) {
  if (life) facts[member] = life->floor_in(unit::millisecond);
}

std::int64_t microgram_per_millilitre(LiquidDensity density) {
  return static_cast<std::int64_t>(std::llround(density.value_in(unit::gram_per_millilitre) * 1e6));
}

/// What goes into the mixes of a label besides water, each ingredient once.
json ingredients(const Label& label) {
  json list = json::array();
  std::set<std::string> seen;
  for (const MixingTable& table : label.mixing)
    for (const MixingStep& step : table.steps) {
      if (is_water(step.ingredient) || !seen.insert(step.ingredient).second) continue;
      list.push_back({{"name", step.ingredient}});
      if (step.density) list.back()["density_ug_ml"] = microgram_per_millilitre(*step.density);
    }
  return list;
}

/// Millikelvin; a thousandth of that is noise of the conversion and rounds nothing.
std::int64_t inward(double millikelvin, bool up) {
  return static_cast<std::int64_t>(up ? std::ceil(millikelvin - 1e-3) : std::floor(millikelvin + 1e-3));
}

}  // namespace

bool mixing_needs_respirator(const Label& label) {
  return label.strength == StrengthClass::high_strength_oxidiser ||
         label.mixing_gear.respirator.value_or(Facepiece::none) != Facepiece::none;
}

json label_facts(const Label& label, std::string_view product) {
  json facts = {{"product", product},
                {"strength", strength_name(label.strength)},
                {"hazard_class", label.transport.hazard_class},
                {"packing_group", label.transport.packing_group},
                {"un_number", label.transport.un_number},
                {"poison_by_inhalation", label.transport.poison_by_inhalation},
                {"density_ug_ml", microgram_per_millilitre(label.density)},
                {"ingredients", ingredients(label)},
                {"mixing_respirator", mixing_needs_respirator(label)}};
  put_life(facts, "sealed_ms", label.shelf_life.sealed);
  put_life(facts, "opened_ms", label.shelf_life.opened);
  put_life(facts, "mixed_ms", label.shelf_life.mixed);
  if (label.storage.low) facts["low_mk"] = inward(label.storage.low->in_kelvin() * 1'000, true);
  if (label.storage.high) facts["high_mk"] = inward(label.storage.high->in_kelvin() * 1'000, false);
  return facts;
}

}  // namespace fogwright
