// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Labels of the invented world and air as the model might hand it over, made by hand.

#include "fogwright/gate.hpp"

namespace fogwright::testing {

inline constexpr const char* chlorine_dioxide = "10049-04-4";
inline constexpr const char* hydrogen_peroxide = "7722-84-1";

inline MassConcentration mg(double value) { return {value, unit::milligram_per_cubic_metre}; }
inline HoldTime minutes(double value) { return {value, unit::minute}; }

inline Label ready_to_use() {
  Label label;
  label.name = "Fenmist RTU";
  label.registration = "DEMO-1";
  label.signal_word = SignalWord::caution;
  label.applying_gear.items = {"splash goggles", "nitrile gloves"};
  label.empty_time = minutes(30);
  return label;
}

inline Label dilutable() {
  Label label = ready_to_use();
  label.name = "Palelight HP";
  label.registration = "DEMO-3";
  label.strength = StrengthClass::dilutable;
  label.oxidiser = true;
  label.signal_word = SignalWord::danger;
  label.mixing_gear.items = {"face shield", "rubber gloves"};
  label.storage.high = Temperature::celsius(30);
  label.ventilation = "Open windows for an hour.";
  return label;
}

inline Label high_strength() {
  Label label = dilutable();
  label.name = "Brackwater 20";
  label.registration = "DEMO-2";
  label.strength = StrengthClass::high_strength_oxidiser;
  label.mixing.emplace_back();
  label.shelf_life.mixed = ShelfTime(4, unit::hour);
  label.empty_time = minutes(120);
  label.applying_gear.respirator = Facepiece::half_mask;
  label.applying_gear.cartridges = {"organic vapor/acid gas"};
  return label;
}

/// Vapour of a substance of the shipped table at a multiple of its limit.
inline ActiveAir vapour(const char* cas, double hazard_ratio) {
  ActiveAir active;
  active.substance = find_substance(cas);
  active.estimable = true;
  active.hazard_ratio = hazard_ratio;
  return active;
}

/// Vapour of something that is not in the table.
inline ActiveAir hidden_vapour() { return {}; }

inline AirResult air_of(std::vector<ActiveAir> actives) {
  AirResult air;
  air.actives = std::move(actives);
  for (const ActiveAir& active : air.actives) air.estimable = air.estimable && active.estimable;
  return air;
}

}  // namespace fogwright::testing
