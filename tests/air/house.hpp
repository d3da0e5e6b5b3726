// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/air.hpp"

namespace house {

using namespace fogwright;

inline constexpr auto mg_per_m3 = unit::milligram_per_cubic_metre;

/// 2,000 sq ft under 8 ft, all of it free air: the house of the check cases.
inline Zone bare_house() {
  Zone zone;
  zone.gross = FloorArea{2000, unit::square_foot} * Length{8, unit::foot};
  zone.free_fraction = 1;
  return zone;
}

inline Active vapour(std::string cas, double mass_fraction) {
  Active active;
  active.name = cas;
  active.cas = std::move(cas);
  active.mass_fraction = mass_fraction;
  return active;
}

inline Active mist(std::string cas, double mass_fraction) {
  Active active = vapour(std::move(cas), mass_fraction);
  active.release = Release::mist;
  return active;
}

inline Label label_with(std::vector<Active> actives, double g_per_ml = 1.0) {
  Label label;
  label.name = "test product";
  label.density = LiquidDensity{g_per_ml, unit::gram_per_millilitre};
  label.actives = std::move(actives);
  return label;
}

inline AirInput input_of(const Label& label, LiquidVolume volume) {
  AirInput input;
  input.label = &label;
  input.volume = volume;
  input.flow = LiquidFlow{100, unit::millilitre_per_minute};
  return input;
}

inline constexpr auto chlorine_dioxide = "10049-04-4";
inline constexpr auto peroxide = "7722-84-1";
inline constexpr auto ethanol = "64-17-5";
inline constexpr auto propanol = "67-63-0";
inline constexpr auto acetic_acid = "64-19-7";
inline constexpr auto peracetic_acid = "79-21-0";

/// Sodium chlorite that acid turns into chlorine dioxide, all of it.
inline Label acid_chlorite_label(double mass_fraction) {
  Active chlorite = vapour("7758-19-2", mass_fraction);
  chlorite.yield = 0.596635680309;
  chlorite.released_cas = chlorine_dioxide;
  Label label = label_with({chlorite});
  label.chemistry = {Chemistry::chlorite};
  return label;
}

}  // namespace house
