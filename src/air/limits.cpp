// SPDX-License-Identifier: Apache-2.0
#include "air/limits.hpp"

#include <algorithm>

#include "air/constants.hpp"

namespace fogwright {

double mg_per_m3_from_ppm(double ppm, double molar_mass) { return ppm * molar_mass / limit_molar_volume_l; }

double ppm_from_mg_per_m3(double mg_per_m3, double molar_mass) {
  return mg_per_m3 * limit_molar_volume_l / molar_mass;
}

double meter_ppm(double mg_per_m3, double molar_mass, Temperature temperature, Pressure pressure) {
  return mg_per_m3 * air::molar_volume_l(temperature, pressure) / molar_mass;
}

std::optional<GoverningLimit> governing_limit(const Active& active, LimitKind kind,
                                              std::span<const EnteredLimit> entered) {
  return air::GoverningLimits(active, find_substance(air::airborne_cas(active)), entered).of(kind);
}

namespace air {

std::string_view airborne_cas(const Active& active) {
  return active.released_cas ? std::string_view{*active.released_cas} : std::string_view{active.cas};
}

std::optional<double> limit_mg_per_m3(std::optional<double> ppm, std::optional<double> mg_per_m3,
                                      const Substance* substance) {
  if (!ppm || !substance) return mg_per_m3;
  const double from_ppm = mg_per_m3_from_ppm(*ppm, substance->molar_mass);
  return mg_per_m3 ? std::min(from_ppm, *mg_per_m3) : from_ppm;
}

GoverningLimits::GoverningLimits(const Active& active, const Substance* substance,
                                 std::span<const EnteredLimit> entered) {
  if (substance)
    for (const LimitRow& row : substance->limits)
      keep_lower(row.kind, limit_mg_per_m3(row.ppm, row.mg_per_m3, substance), row.authority, row.source);
  for (const EnteredLimit& limit : entered)
    if (limit.cas == airborne_cas(active))
      keep_lower(limit.kind, limit_mg_per_m3(limit.ppm, limit.mg_per_m3, substance), "entered", limit.source);
  add_printed(LimitKind::eight_hour, active.eight_hour, substance);
  add_printed(LimitKind::short_term, active.short_term, substance);
  add_printed(LimitKind::ceiling, active.ceiling, substance);
  add_printed(LimitKind::immediately_dangerous, active.immediately_dangerous, substance);
}

void GoverningLimits::keep_lower(LimitKind kind, std::optional<double> mg_per_m3, std::string_view authority,
                                 std::string_view source) {
  if (!mg_per_m3) return;
  auto& lowest = lowest_[static_cast<std::size_t>(kind)];
  const MassConcentration value{*mg_per_m3, unit::milligram_per_cubic_metre};
  if (!lowest || value < lowest->value) lowest = GoverningLimit{value, authority, source};
}

void GoverningLimits::add_printed(LimitKind kind, const std::optional<PrintedLimit>& printed,
                                  const Substance* substance) {
  if (!printed) return;
  std::optional<double> mg_per_m3;
  if (printed->concentration) mg_per_m3 = printed->concentration->value_in(unit::milligram_per_cubic_metre);
  keep_lower(kind, limit_mg_per_m3(printed->ppm, mg_per_m3, substance), "label", "label or data sheet");
}

const std::optional<GoverningLimit>& stricter(const std::optional<GoverningLimit>& one,
                                              const std::optional<GoverningLimit>& other) {
  if (!one || (other && other->value < one->value)) return other;
  return one;
}

}  // namespace air

}  // namespace fogwright
