// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The tables of a profile, innermost first.

#include "label/rows.hpp"

namespace fogwright::profile {

extern const Table<PrintedLimit> printed_limit_table;
extern const Table<Active> active_table;
extern const Table<MixingStep> mixing_step_table;
extern const Table<MixingTable> mixing_table;
extern const Table<Gear> gear_kind_table;
extern const Table<Label> gear_table;
extern const Table<DirectedRate> rate_table;
extern const Table<Label> reentry_table;
extern const Table<StorageRange> storage_table;
extern const Table<ShelfLife> shelf_life_table;
extern const Table<Transport> transport_table;
extern const Table<Label> dates_table;
extern const Table<Label> label_table;

/// The place of a member, or of the table where it has none of its own.
[[nodiscard]] inline toml::source_position place_of(const toml::table& node, std::string_view member) {
  const auto* found = node.get(member);
  return found != nullptr ? found->source().begin : node.source().begin;
}

/// Two members of which neither makes sense alone.
void check_pair(Reading& reading, const toml::table& node, std::string_view one, std::string_view other,
                std::string_view hint);

/// What holds between members of the whole label (src/label/agreement.cpp).
void check_agreement(Reading& reading, const toml::table& node, const Label& label);

}  // namespace fogwright::profile
