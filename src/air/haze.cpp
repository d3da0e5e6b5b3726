// SPDX-License-Identifier: Apache-2.0
#include "air/haze.hpp"

#include <algorithm>
#include <cmath>

#include "air/active.hpp"
#include "air/limits.hpp"

namespace fogwright::air {

namespace {

// 29 CFR 1910.1000 Table Z-1, particulates not otherwise regulated, respirable fraction (from memory).
constexpr MassConcentration particulate_limit{5, unit::milligram_per_cubic_metre};
constexpr Length assumed_droplet{20, unit::micrometre};
constexpr double assumed_nonvolatile = 0.05;
constexpr double least_nonvolatile = 0.0005;  // below this even a cautious dose leaves no haze to speak of

bool is_mist(const Active& active) { return active.release == Release::mist; }

/// A mist active's own limit counts where it is lower: it is taken for all of the particles.
MassConcentration haze_limit(const Zone& zone, const AirInput& input) {
  MassConcentration lowest = particulate_limit / zone.occupant_factor;
  for (const Active& active : input.label->actives) {
    if (!is_mist(active)) continue;
    const Substance* substance = find_substance(airborne_cas(active));
    const GoverningLimits limits(active, substance, input.entered_limits);
    const auto& other = stricter(limits.of(LimitKind::short_term), limits.of(LimitKind::ceiling));
    const auto own =
        occupant_limit(active, substance, limits.of(LimitKind::eight_hour), other, zone.occupant_factor).value;
    if (own) lowest = std::min(lowest, *own);
  }
  return lowest;
}

double mist_fraction(const Label& label) {
  double sum = 0;
  for (const Active& active : label.actives)
    if (is_mist(active)) sum += active.mass_fraction.value_or(0);
  return std::min(sum, 1.0);
}

/// Stirred settling: the room stays mixed while particles leave it at its floor (Hinds ch. 3, from memory). Two
/// phases without a source, so one logarithm serves both; the search for the worst residue asks often.
HoldTime time_to_limit(const Zone& zone, const Ventilation& ventilation, double times_limit, Length diameter) {
  if (times_limit <= 1) return {};
  const double excess = std::log(times_limit);
  const double settling = settling_velocity_m_s(diameter) * 3600 / zone.ceiling.si();
  const double closed = settling + ventilation.closed, airing = settling + ventilation.airing;
  if (excess <= closed * ventilation.airing_from) return HoldTime{excess / closed, unit::hour};
  return HoldTime{ventilation.airing_from + (excess - closed * ventilation.airing_from) / airing, unit::hour};
}

void set_residue(Haze& haze, const Zone& zone, const Ventilation& ventilation, double nonvolatile) {
  const Length dried = haze.droplet_diameter * std::cbrt(nonvolatile);
  const MassConcentration start = haze.droplets * nonvolatile;
  const HoldTime time = time_to_limit(zone, ventilation, start / haze.limit, dried);
  if (time < haze.residue_time) return;
  haze.nonvolatile_fraction = nonvolatile;
  haze.residue_diameter = dried;
  haze.residue = start;
  haze.residue_time = time;
}

/// The longest time for shares from what the label names to 5 %, in steps of two.
void set_worst_residue(Haze& haze, const Zone& zone, const Ventilation& ventilation, double named) {
  const double least = std::max(named, least_nonvolatile);
  for (double share = std::max(named, assumed_nonvolatile); share > least; share /= 2)
    set_residue(haze, zone, ventilation, share);
  set_residue(haze, zone, ventilation, least);
}

}  // namespace

Haze haze_of(const Zone& zone, const AirInput& input, const Ventilation& ventilation, AirVolume free) {
  const Label& label = *input.label;
  Haze haze;
  haze.limit = haze_limit(zone, input);
  haze.droplets = input.volume * label.density / free;
  haze.droplet_diameter = label.droplet_diameter.value_or(assumed_droplet);
  haze.diameter_basis = label.droplet_diameter ? Basis::label : Basis::assumed;
  haze.droplet_time = time_to_limit(zone, ventilation, haze.droplets / haze.limit, haze.droplet_diameter);
  haze.nonvolatile_basis = label.nonvolatile_fraction ? Basis::label : Basis::assumed;
  if (label.nonvolatile_fraction)
    set_residue(haze, zone, ventilation, *label.nonvolatile_fraction);
  else
    set_worst_residue(haze, zone, ventilation, mist_fraction(label));
  return haze;
}

}  // namespace fogwright::air
