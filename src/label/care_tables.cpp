// SPDX-License-Identifier: Apache-2.0
/// Rate, re-entry, storage, shelf life, transport, dates.

#include "label/tables.hpp"

namespace fogwright::profile {
namespace {

template <auto Seconds>
constexpr Row<DirectedRate> seconds(std::string_view name, std::string_view example, std::string_view doc) {
  return {{name, Shape::quantity, required, example, doc}, [](Reading& r, const Spot& s, DirectedRate& rate) {
            if (const auto time = read_quantity<FogTime>(r, s, read_fog_time))
              rate.*Seconds = time->value_in(unit::second);
          }};
}

constexpr Row<DirectedRate> rate_rows[] = {
    seconds<&DirectedRate::low_s_per_1000_sqft>("low", "\"45 s\"",
                                                "Least fogging time per 1,000 sq ft of floor."),
    seconds<&DirectedRate::high_s_per_1000_sqft>("high", "\"60 s\"",
                                                 "Most fogging time per 1,000 sq ft of floor."),
};

void check_rate(Reading& reading, const toml::table& node, const DirectedRate& rate) {
  if (rate.low_s_per_1000_sqft > 0 && rate.high_s_per_1000_sqft > 0 &&
      rate.low_s_per_1000_sqft > rate.high_s_per_1000_sqft)
    reading.fault(place_of(node, "low"), "low is above high", "exchange the two");
}

constexpr Row<Label> reentry_rows[] = {
    quantity<&Label::empty_time, read_hold_time>("empty_time", optional, "\"60 min\"",
                                                 "Least time that the building stays empty after fogging. Left "
                                                 "out: label and data sheet are silent, and a "
                                                 "high-strength oxidiser can't be planned with."),
    text<&Label::empty_time_source>("source", optional, "\"data sheet, section 7\"",
                                    "Where `empty_time` is printed."),
    value<&Label::everyone_out, read_flag>(
        "everyone_out", Shape::flag, optional, "true",
        "People and animals out while fogging. True unless the label says otherwise."),
    statement<&Label::ventilation>("ventilation", optional, "\"Open windows and run the fan before re-entry.\"",
                                   "Airing out, in the label's words."),
    quantity<&Label::ventilation_air_changes, read_air_changes>("ventilation_air_changes", optional, "\"4 /h\"",
                                                                "Airing out that the label puts in figures."),
};

void check_reentry(Reading& reading, const toml::table& node, const Label&) {
  check_pair(reading, node, "empty_time", "source", "give the time and where it is printed");
}

constexpr Row<StorageRange> storage_rows[] = {
    quantity<&StorageRange::low, read_temperature>("low", optional, "\"40 F\"", "Store above this."),
    quantity<&StorageRange::high, read_temperature>("high", optional, "\"77 F\"", "Store below this."),
};

void check_storage(Reading& reading, const toml::table& node, const StorageRange& storage) {
  if (storage.low && storage.high && *storage.low >= *storage.high)
    reading.fault(place_of(node, "low"), "low is not below high", "exchange the two, and look at the units");
}

constexpr Row<ShelfLife> shelf_life_rows[] = {
    quantity<&ShelfLife::sealed, read_shelf_time>("sealed", optional, "\"2 years\"",
                                                  "From the date of making."),
    quantity<&ShelfLife::opened, read_shelf_time>("opened", optional, "\"90 days\"", "From the first opening."),
    quantity<&ShelfLife::mixed, read_shelf_time>("mixed", optional, "\"24 h\"", "From mixing."),
};

void check_shelf_life(Reading& reading, const toml::table& node, const ShelfLife& life) {
  if (life.sealed && life.opened && *life.opened > *life.sealed)
    reading.fault(place_of(node, "opened"), "opened is longer than sealed", "compare both with the label");
}

constexpr Row<Transport> transport_rows[] = {
    {{"hazard_class", Shape::word, required, "\"8\"", "Class or division, from section 14 of the data sheet.",
      hazard_classes},
     [](Reading& r, const Spot& s, Transport& transport) {
       read_listed(r, s, hazard_classes(), transport.hazard_class);
     }},
    {{"packing_group", Shape::word, optional, "\"II\"", "Packing group; only gases (class 2) have none.",
      packing_groups},
     [](Reading& r, const Spot& s, Transport& transport) {
       read_listed(r, s, packing_groups(), transport.packing_group);
     }},
    value<&Transport::un_number, read_un_number>("un_number", Shape::un_number, required, "\"UN1908\"",
                                                 "Identification number."),
    value<&Transport::poison_by_inhalation, read_flag>(
        "poison_by_inhalation", Shape::flag, optional, "false",
        "Whether it is poisonous by inhalation. False unless given."),
};

void check_transport(Reading& reading, const toml::table& node, const Transport& transport) {
  if (transport.hazard_class.empty() || transport.hazard_class.starts_with('2') ||
      node.contains("packing_group"))
    return;
  reading.fault(place_of(node, "hazard_class"), "a packing group belongs to this class",
                "add packing_group = \"II\", or as section 14 of the data sheet has it");
}

constexpr Row<Label> dates_rows[] = {
    value<&Label::label_date, read_date>("label", Shape::date, required, "\"2024-03-01\"",
                                         "Date of the label that this profile was copied from."),
    value<&Label::data_sheet_date, read_date>("data_sheet", Shape::date, required, "\"2024-02-15\"",
                                              "Date of the safety data sheet."),
};

}  // namespace

constinit const Table<DirectedRate> rate_table{
    "rate", "[rate]",
    "The rate that the label directs. Left out: the label is silent, and common practice applies.", rate_rows,
    check_rate};
constinit const Table<Label> reentry_table{"reentry", "[reentry]", "Leaving, airing out, coming back.",
                                           reentry_rows, check_reentry};
constinit const Table<StorageRange> storage_table{"storage", "[storage]", "Temperatures of storage.",
                                                  storage_rows, check_storage};
constinit const Table<ShelfLife> shelf_life_table{"shelf_life", "[shelf_life]", "How long it keeps.",
                                                  shelf_life_rows, check_shelf_life};
constinit const Table<Transport> transport_table{
    "transport", "[transport]", "Section 14 of the data sheet. Left out: not regulated for transport.",
    transport_rows, check_transport};
constinit const Table<Label> dates_table{"dates", "[dates]", "Which papers this profile was copied from.",
                                         dates_rows};

}  // namespace fogwright::profile
