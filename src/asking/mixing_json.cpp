// SPDX-License-Identifier: Apache-2.0
#include "asking/mixing_json.hpp"

#include "desk/label_facts.hpp"
#include "dose/naming.hpp"
#include "fogwright/quantity/measured.hpp"

namespace fogwright {

using nlohmann::json;

json mixing_json(const Label& label, const MixingSheet& sheet) {
  json tables = json::array();
  for (const MixingTable& table : label.mixing) tables.push_back(table.name);
  json lines = json::array();
  for (const MixingSheetLine& line : sheet.lines) {
    lines.push_back({{"ingredient", line.ingredient},
                     {"from_container", !is_water(line.ingredient)},
                     {"amount_ml", line.amount.value_in(unit::millilitre)},
                     {"amount",
                      {{"us", show_measured(line.amount, UnitSystem::us_customary)},
                       {"metric", show_measured(line.amount, UnitSystem::metric)}}},
                     {"instruction", line.instruction}});
    if (line.wait) lines.back()["wait_minutes"] = line.wait->ceil_in(unit::minute);
  }
  json shown = {{"label", label.name},          {"tables", std::move(tables)},
                {"table", sheet.table},         {"makes_ml", sheet.makes.value_in(unit::millilitre)},
                {"batches", sheet.batches},     {"lines", std::move(lines)},
                {"gear", sheet.gear.items},     {"respirator", mixing_needs_respirator(label)},
                {"cautions", label.precautions}};
  if (sheet.active_fraction) shown["active_fraction"] = *sheet.active_fraction;
  if (sheet.life) shown["life_minutes"] = sheet.life->floor_in(unit::minute);
  return shown;
}

}  // namespace fogwright
