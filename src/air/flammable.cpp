// SPDX-License-Identifier: Apache-2.0
#include "air/flammable.hpp"

#include <algorithm>

#include "air/constants.hpp"
#include "air/limits.hpp"

namespace fogwright {

double lower_flammable_g_m3(double volume_percent, double molar_mass) {
  return volume_percent * 10 * molar_mass / air::molar_volume_25c_l;
}

double lower_flammable_percent_at(double volume_percent_25c, Temperature t) {
  return volume_percent_25c * (1 - 0.000721 * (t.in_celsius() - 25));
}

double flammable_share(std::span<const double> concentrations, std::span<const double> lower_limits) {
  return mixture_index(concentrations, lower_limits);
}

namespace air {

namespace {

// 29 CFR 1910.146(b): above 10 % of the limit the air is hazardous. OSHA on 29 CFR 1910.124: below 25 % outside
// the vapour area.
constexpr double plan_limit = 0.10;
constexpr double stop_limit = 0.25;

/// What of the liquid burns: its lower limit in percent at 25 °C, molar mass and mass fraction.
struct Fuel {
  double percent = 0, molar_mass = 0, mass_fraction = 0;
};

/// An alcohol that the table does not know counts as 2-propanol, the lowest limit there.
constexpr double unknown_alcohol_percent = 2.0;
constexpr double unknown_alcohol_molar_mass = 60.096;

bool says_alcohol(const Label& label) {
  return std::find(label.chemistry.begin(), label.chemistry.end(), Chemistry::alcohol) != label.chemistry.end();
}

/// A strength that the label hides counts as all of the product; an unknown vapour of a product that says it
/// holds an alcohol counts as one. nullopt where the active does not burn.
std::optional<Fuel> fuel_of(const Label& label, const Active& active) {
  const double fraction = active.mass_fraction.value_or(1);
  const Substance* substance = find_substance(active.cas);
  if (substance && substance->lower_flammable_percent)
    return Fuel{*substance->lower_flammable_percent, substance->molar_mass, fraction};
  if (substance || active.release != Release::vapour || !says_alcohol(label)) return std::nullopt;
  return Fuel{unknown_alcohol_percent, unknown_alcohol_molar_mass, fraction};
}

/// kg/m3 in this building's air; neither cold nor dense air raises the limit above its value at 25 °C, 1 atm.
double lower_limit(const Fuel& fuel, const Zone& zone) {
  const double percent = std::min(fuel.percent, lower_flammable_percent_at(fuel.percent, zone.temperature));
  const double thinner = std::max(1.0, molar_volume_l(zone.temperature, zone.pressure) / molar_volume_25c_l);
  return lower_flammable_g_m3(percent, fuel.molar_mass) / thinner / 1000;
}

/// m3 of air that a kg of the liquid brings to the lower limit, all of its fuel counted as vapour: a mist can
/// burn below the vapour's limit (Le Chatelier's rule for mixtures). An alcohol that no active names counts as
/// all of it.
double air_made_flammable(const Zone& zone, const Label& label) {
  double sum = 0;
  for (const Active& active : label.actives)
    if (const auto fuel = fuel_of(label, active)) sum += fuel->mass_fraction / lower_limit(*fuel, zone);
  if (sum > 0 || !says_alcohol(label)) return sum;
  return 1 / lower_limit(Fuel{unknown_alcohol_percent, unknown_alcohol_molar_mass, 1}, zone);
}

LiquidFlow flow_of(const AirInput& input) {
  return input.flow.si() > 0 ? input.flow : input.volume / input.fog_time;
}

}  // namespace

bool may_burn(const Label& label) {
  const auto burns = [&](const Active& active) { return fuel_of(label, active).has_value(); };
  return says_alcohol(label) || std::any_of(label.actives.begin(), label.actives.end(), burns);
}

Flammable flammable_air(const Zone& zone, const AirInput& input, AirVolume free) {
  Flammable result;
  const Label& label = *input.label;
  const double per_kg = air_made_flammable(zone, label);
  if (per_kg == 0) return result;
  result.present = true;
  result.share_house = (input.volume * label.density).si() * per_kg / free.si();
  const AirFlow at_limit = AirFlow::from_si(flow_of(input).si() * label.density.si() * per_kg);
  result.least_airflow = at_limit / plan_limit;
  result.seconds_to_tenth_fan_off = plan_limit * input.plenum.si() / at_limit.si();
  if (input.fan) result.share_duct = at_limit / *input.fan;
  result.plan_limit_exceeded = !result.share_duct || *result.share_duct > plan_limit;
  result.stop_limit_exceeded = result.share_duct && *result.share_duct > stop_limit;
  return result;
}

}  // namespace air

}  // namespace fogwright
