// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace fogwright::text {

/// A unit that is read. One row serves the reader and the hint that lists the accepted forms.
struct UnitRow {
  std::string_view symbol;     ///< as shown
  double in_si;                ///< from fogwright::unit
  std::string_view spellings;  ///< as canonical_unit() gives them, separated by spaces
};

/// A spelling that is refused because it could mean two things.
struct Trap {
  std::string_view spelling;  ///< as typed or as canonical_unit() gives it
  std::string_view reason;
  std::string_view hint;
};

/// How a quantity is written.
struct Form {
  std::string_view noun;      ///< "a floor area"
  std::string_view examples;  ///< "2,400 sq ft or 223 m2"
  std::span<const UnitRow> units;
  std::span<const Trap> traps = {};
  bool in_parts = false;  ///< several units in a row: "8 ft 6 in", "1 h 30 min"
};

extern const Form floor_area_form, face_area_form, length_form, air_volume_form, liquid_volume_form;
extern const Form liquid_flow_form, air_flow_form, mass_form, liquid_density_form, mass_concentration_form;
extern const Form fog_time_form, hold_time_form, shelf_time_form, air_changes_form, pressure_form;
extern const Form temperature_form, mass_fraction_form;

/// Every form, for tests that walk the tables.
[[nodiscard]] std::span<const Form* const> all_forms();

/// The row that goes by this spelling; nullptr if there is none.
[[nodiscard]] const UnitRow* find_unit(const Form& form, std::string_view spelling);
[[nodiscard]] const Trap* find_trap(const Form& form, std::string_view spelling);

/// "write for example 2,400 sq ft or 223 m2; units: sq ft, m2".
[[nodiscard]] std::string accepted_forms(const Form& form);

}  // namespace fogwright::text
