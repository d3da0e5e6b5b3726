// SPDX-License-Identifier: Apache-2.0
#include "air/active.hpp"

#include "air/limits.hpp"

namespace fogwright::air {

namespace {

/// All that the liquid can give off. No credit for what stays in it.
Mass released_mass(const AirInput& input, const Active& active) {
  return input.volume * input.label->density * (*active.mass_fraction * active.yield);
}

void add_peak(ActiveAir& air, const Zone& zone, const AirInput& input, AirVolume free) {
  air.released = released_mass(input, *air.active);
  air.peak = air.released / free;
  if (air.substance) {
    const double mg_per_m3 = air.peak.value_in(unit::milligram_per_cubic_metre);
    air.peak_ppm = ppm_from_mg_per_m3(mg_per_m3, air.substance->molar_mass);
    air.peak_meter_ppm = meter_ppm(mg_per_m3, air.substance->molar_mass, zone.temperature, zone.pressure);
  }
  if (air.immediately_dangerous) air.above_immediately_dangerous = air.peak > air.immediately_dangerous->value;
}

void add_times(ActiveAir& air, const Zone& zone, const AirInput& input, const Ventilation& ventilation,
               Times times) {
  if (!air.worker && !air.occupant) return;
  const double peak = air.peak.value_in(unit::milligram_per_cubic_metre);
  const BothReleases releases(ventilation, source_of(zone, *input.label, *air.active, peak));
  const auto time_to = [&](MassConcentration limit) {
    return releases.time_to(limit.value_in(unit::milligram_per_cubic_metre));
  };
  if (air.worker && times == Times::everyone) air.to_worker = time_to(air.worker->value);
  if (air.occupant) air.to_occupant = time_to(*air.occupant);
}

}  // namespace

OccupantLimit occupant_limit(const Active& active, const Substance* substance,
                             const std::optional<GoverningLimit>& eight_hour,
                             const std::optional<GoverningLimit>& other, double factor) {
  if (active.occupant) {
    std::optional<double> printed;
    if (active.occupant->concentration)
      printed = active.occupant->concentration->value_in(unit::milligram_per_cubic_metre);
    if (const auto value = limit_mg_per_m3(active.occupant->ppm, printed, substance))
      return {MassConcentration{*value, unit::milligram_per_cubic_metre}, Basis::label};
  }
  const auto& base = eight_hour ? eight_hour : other;
  if (!base) return {};
  return {base->value / factor, Basis::policy};
}

void add_limits(ActiveAir& air, const Zone& zone, const AirInput& input) {
  air.substance = find_substance(airborne_cas(*air.active));
  const GoverningLimits limits(*air.active, air.substance, input.entered_limits);
  air.worker = limits.of(LimitKind::eight_hour);
  air.short_term = limits.of(LimitKind::short_term);
  air.ceiling = limits.of(LimitKind::ceiling);
  air.immediately_dangerous = limits.of(LimitKind::immediately_dangerous);
  const auto occupant = occupant_limit(*air.active, air.substance, air.worker,
                                       stricter(air.short_term, air.ceiling), zone.occupant_factor);
  air.occupant = occupant.value;
  air.occupant_basis = occupant.basis;
}

void add_air(ActiveAir& air, const Zone& zone, const AirInput& input, const Ventilation& ventilation,
             AirVolume free, Times times) {
  if (!air.active->mass_fraction) return;
  add_peak(air, zone, input, free);
  const auto& strictest = stricter(air.worker, stricter(air.short_term, air.ceiling));
  air.estimable = air.substance && strictest;
  if (strictest) air.hazard_ratio = air.peak / strictest->value;
  add_times(air, zone, input, ventilation, times);
}

}  // namespace fogwright::air
