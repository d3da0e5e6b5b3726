// SPDX-License-Identifier: Apache-2.0
#include "air/moisture.hpp"

#include <algorithm>

#include "air/constants.hpp"
#include "air/psychrometrics.hpp"

namespace fogwright::air {

/// All the liquid evaporates as water, the air stays at its temperature, and nothing soaks it up: the dampest
/// case.
Moisture moisture_of(const Zone& zone, const AirInput& input, AirVolume free) {
  const Mass added = input.volume * input.label->density;
  const SaturatedAir saturated_air(zone.temperature);
  const double saturated_kg_m3 =
      saturated_air.pressure_pa() * molar_mass_water / (gas_constant * zone.temperature.in_kelvin()) / 1000;
  const Mass saturated = Mass::from_si(saturated_kg_m3 * free.si());

  Moisture result;
  result.relative_humidity_before = input.relative_humidity;
  result.relative_humidity_after = input.relative_humidity + added / saturated;
  result.condensate = saturated * std::max(result.relative_humidity_after - 1, 0.0);
  result.dew_point_after = saturated_air.dew_point(result.relative_humidity_after);
  if (input.coldest_surface)
    result.wets_coldest_surface = result.condensate.si() > 0 || result.dew_point_after > *input.coldest_surface;
  return result;
}

}  // namespace fogwright::air
