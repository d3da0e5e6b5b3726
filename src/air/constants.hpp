// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/quantity.hpp"

namespace fogwright::air {

inline constexpr double gas_constant = 8.31446261815324;  ///< J/(mol K), exact (SI 2019)
inline constexpr double molar_mass_water = 18.015;        ///< g/mol

/// Litres that a mole of an ideal gas fills.
[[nodiscard]] constexpr double molar_volume_l(Temperature t, Pressure p) {
  return gas_constant * t.in_kelvin() / p.si() * 1000;
}

inline constexpr double molar_volume_25c_l =
    molar_volume_l(Temperature::celsius(25), Pressure{1, unit::atmosphere});  ///< 24.4654

// What the model covers; check_zone and the inverse questions share these.
inline constexpr AirChanges most_air_changes{100, unit::per_hour};
inline constexpr LiquidVolume most_liquid{100'000, unit::litre};
inline constexpr HoldTime longest_time{30 * 24, unit::hour};

}  // namespace fogwright::air
