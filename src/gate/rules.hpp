// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The table of rules with what decides whether a rule applies and what fills its words.

#include <cstdint>
#include <span>
#include <string_view>

#include "fogwright/gate.hpp"

namespace fogwright {

/// One condition a rule; `when_words` gives it in words.
enum class When : std::uint8_t {
  always,
  licence_asked,
  vacated,
  animals,
  sensitive_person,
  oxidiser,
  corrosive,
  flammable,
  mixed,
  mixing_table,
  mix_life,
  storage_stated,
  storage_silent,
  mixing_gear,
  applying_gear,
  respirator,
  respirator_to_mix_by_label,
  respirator_to_mix_by_practice,
  respirator_to_mix,
  respirator_to_fog,
  cartridges,
  gas_cartridges,
  supplied_air,
  do_not_enter,
  may_enter_high_strength,
  ventilation_stated,
  ventilation_silent,
  airing_planned,
  hold,
  model_outlasts_floor,
  readings_needed,
};
inline constexpr int when_count = 31;
/// "every job", "a high-strength oxidiser", ...
[[nodiscard]] std::string_view when_words(When when) noexcept;

/// What fills the {} of a rule's words.
enum class Fill : std::uint8_t {
  nothing,
  registration,
  entrances,
  mixing_gear,
  applying_gear,
  facepiece,
  cartridges,
  mix_life_minutes,
  least_airflow_cfm,
  planned_airing,
  floor_minutes,
  model_minutes,
};

struct GateRow {
  When when;
  Fill fill;
  Rule rule;
};
/// As all_rules(), row by row.
[[nodiscard]] std::span<const GateRow> gate_rows();

}  // namespace fogwright
