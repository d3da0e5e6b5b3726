// SPDX-License-Identifier: Apache-2.0
#include "label/tables.hpp"

namespace fogwright::profile {
namespace {

constexpr Row<PrintedLimit> printed_limit_rows[] = {
    value<&PrintedLimit::ppm, read_bare_number>("ppm", Shape::number, optional, "0.1",
                                                "Parts per million of air by volume, at 25 °C and 760 mmHg."),
    quantity<&PrintedLimit::concentration, read_mass_concentration>("concentration", optional, "\"0.3 mg/m3\"",
                                                                    "Mass in a volume of air."),
};

void check_printed_limit(Reading& reading, const toml::table& node, const PrintedLimit&) {
  if (node.empty())
    reading.fault(node.source().begin, "the limit is empty",
                  "write ppm = 0.1, concentration = \"0.3 mg/m3\", or both");
}

constexpr Row<Active> active_rows[] = {
    text<&Active::name>("name", required, "\"Hydrogen peroxide\"", "The active as the label prints it."),
    value<&Active::cas, read_cas>("cas", Shape::cas, required, "\"7722-84-1\"",
                                  "CAS registry number; the key to the table of exposure limits."),
    value<&Active::mass_fraction, read_fraction>("mass_fraction", Shape::fraction, optional, "\"3.0 %\"",
                                                 "Share by mass of the product *as applied*, after mixing. "
                                                 "Left out: the label hides it, and nothing can be computed."),
    word<&Active::release>("release", required, "\"vapour\"",
                           "`vapour`: counts as gas or vapour. `mist`: stays in droplets and their residue."),
    value<&Active::yield, read_bare_number>(
        "yield", Shape::number, optional, "0.5966",
        "Mass of gas that the mixed product can give off per mass of this active. 1 unless given."),
    value<&Active::released_cas, read_cas>("released_cas", Shape::cas, optional, "\"10049-04-4\"",
                                           "CAS number of what is given off, where that is another substance."),
    text<&Active::released_name>("released_name", optional, "\"Chlorine dioxide\"", "Its name."),
    quantity<&Active::off_gassing, read_hold_time>("off_gassing", optional, "\"180 min\"",
                                                   "How long wet surfaces go on releasing it."),
    table<&Active::eight_hour, &printed_limit_table>("eight_hour", optional, "[active.eight_hour]",
                                                     "printed limit",
                                                     "Eight-hour limit printed by the label or data sheet."),
    table<&Active::short_term, &printed_limit_table>("short_term", optional, "[active.short_term]",
                                                     "printed limit",
                                                     "Short-term (15 min) limit printed there."),
    table<&Active::ceiling, &printed_limit_table>("ceiling", optional, "[active.ceiling]", "printed limit",
                                                  "Ceiling limit printed there."),
    table<&Active::immediately_dangerous, &printed_limit_table>(
        "immediately_dangerous", optional, "[active.immediately_dangerous]", "printed limit",
        "Immediately dangerous level printed there."),
    table<&Active::occupant, &printed_limit_table>(
        "occupant", optional, "[active.occupant]", "printed limit",
        "Limit for occupants printed there; it replaces company policy."),
    value<&Active::loss_per_hour, read_bare_number>(
        "loss_per_hour", Shape::number, optional, "0.2",
        "First-order loss from the air other than by ventilation. Needs `loss_source`."),
    statement<&Active::loss_source>("loss_source", optional, "\"chamber test of the maker, 2023, report 14\"",
                                    "Where that figure is published."),
};

void check_active(Reading& reading, const toml::table& node, const Active&) {
  check_pair(reading, node, "loss_per_hour", "loss_source",
             "a loss shortens the computed time, so it needs its source");
  check_pair(reading, node, "released_cas", "released_name", "give both number and name of what is given off");
  if (node.contains("yield") && !node.contains("released_cas"))
    reading.fault(place_of(node, "yield"), "yield is given, but not what is given off",
                  "add released_cas and released_name, or delete yield where the active itself is released");
}

}  // namespace

constinit const Table<PrintedLimit> printed_limit_table{
    "printed limit", "[active.eight_hour]",
    "An exposure limit that the label or data sheet itself prints: also `[active.short_term]`, "
    "`[active.ceiling]`, "
    "`[active.immediately_dangerous]`, `[active.occupant]`. At least one member.",
    printed_limit_rows, check_printed_limit};
constinit const Table<Active> active_table{"active", "[[active]]",
                                           "One active ingredient; as many tables as the label names.",
                                           active_rows, check_active};

}  // namespace fogwright::profile
