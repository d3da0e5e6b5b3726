// SPDX-License-Identifier: Apache-2.0
#include "label/tables.hpp"

namespace fogwright::profile {
namespace {

constexpr Row<Gear> gear_kind_rows[] = {
    statements<&Gear::items>("items", required, "[\"chemical splash goggles\", \"nitrile gloves\"]",
                             "What to wear, in the label's order, respirator aside."),
    word<&Gear::respirator>("respirator", optional, "\"half-mask\"", "The least respirator that is demanded."),
    statements<&Gear::cartridges>("cartridges", optional, "[\"organic vapor/acid gas\"]",
                                  "The words that must stand on the cartridge."),
};

bool takes_cartridges(Facepiece facepiece) {
  return facepiece == Facepiece::half_mask || facepiece == Facepiece::full_facepiece ||
         facepiece == Facepiece::powered;
}

void check_gear(Reading& reading, const toml::table& node, const Gear& gear) {
  const bool cartridges = node.contains("cartridges");
  if (cartridges && !node.contains("respirator"))
    reading.fault(place_of(node, "cartridges"), "cartridges are named, but no respirator",
                  "add respirator = \"half-mask\", or whichever the label demands");
  if (!gear.respirator) return;
  if (cartridges && !takes_cartridges(*gear.respirator))
    reading.fault(place_of(node, "cartridges"),
                  fmt::format("a respirator of the kind \"{}\" takes no cartridges", shown(*gear.respirator)),
                  "delete cartridges, or name the respirator that takes them");
  if (!cartridges && takes_cartridges(*gear.respirator))
    reading.fault(place_of(node, "respirator"), "the respirator needs cartridges, and none are named",
                  "add cartridges = [\"organic vapor/acid gas\"], or whichever words the label demands");
}

constexpr Row<Label> gear_rows[] = {
    table<&Label::mixing_gear, &gear_kind_table>("mixing", optional, "[gear.mixing]",
                                                 "gear for one kind of work",
                                                 "Gear for mixing; required where there is a mixing table."),
    table<&Label::applying_gear, &gear_kind_table>("applying", required, "[gear.applying]",
                                                   "gear for one kind of work", "Gear for fogging."),
};

}  // namespace

constinit const Table<Gear> gear_kind_table{"gear for one kind of work", "[gear.applying]",
                                            "Also `[gear.mixing]`: what the label or data sheet demands.",
                                            gear_kind_rows, check_gear};
constinit const Table<Label> gear_table{
    "gear", "[gear]", "Holds the two tables below; its own header may be left out.", gear_rows};

}  // namespace fogwright::profile
