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
  return air::governing_limit(active, find_substance(air::airborne_cas(active)), kind, entered);
}

namespace air {

namespace {

const std::optional<PrintedLimit>& printed_limit(const Active& active, LimitKind kind) {
  switch (kind) {
    case LimitKind::short_term:
      return active.short_term;
    case LimitKind::ceiling:
      return active.ceiling;
    case LimitKind::immediately_dangerous:
      return active.immediately_dangerous;
    case LimitKind::eight_hour:
      break;
  }
  return active.eight_hour;
}

void keep_lower(std::optional<GoverningLimit>& lowest, std::optional<double> mg_per_m3,
                std::string_view authority, std::string_view source) {
  if (!mg_per_m3) return;
  const MassConcentration value{*mg_per_m3, unit::milligram_per_cubic_metre};
  if (!lowest || value < lowest->value) lowest = GoverningLimit{value, authority, source};
}

}  // namespace

std::string_view airborne_cas(const Active& active) {
  return active.released_cas ? std::string_view{*active.released_cas} : std::string_view{active.cas};
}

std::optional<double> limit_mg_per_m3(std::optional<double> ppm, std::optional<double> mg_per_m3,
                                      const Substance* substance) {
  if (!ppm || !substance) return mg_per_m3;
  const double from_ppm = mg_per_m3_from_ppm(*ppm, substance->molar_mass);
  return mg_per_m3 ? std::min(from_ppm, *mg_per_m3) : from_ppm;
}

std::optional<GoverningLimit> governing_limit(const Active& active, const Substance* substance, LimitKind kind,
                                              std::span<const EnteredLimit> entered) {
  std::optional<GoverningLimit> lowest;
  if (substance) {
    for (const LimitRow& row : substance->limits) {
      if (row.kind != kind) continue;
      keep_lower(lowest, limit_mg_per_m3(row.ppm, row.mg_per_m3, substance), row.authority, row.source);
    }
  }
  for (const EnteredLimit& limit : entered) {
    if (limit.kind != kind || limit.cas != airborne_cas(active)) continue;
    keep_lower(lowest, limit_mg_per_m3(limit.ppm, limit.mg_per_m3, substance), "entered", limit.source);
  }
  if (const auto& printed = printed_limit(active, kind)) {
    std::optional<double> mg_per_m3;
    if (printed->concentration) mg_per_m3 = printed->concentration->value_in(unit::milligram_per_cubic_metre);
    keep_lower(lowest, limit_mg_per_m3(printed->ppm, mg_per_m3, substance), "label", "label or data sheet");
  }
  return lowest;
}

const std::optional<GoverningLimit>& stricter(const std::optional<GoverningLimit>& one,
                                              const std::optional<GoverningLimit>& other) {
  if (!one || (other && other->value < one->value)) return other;
  return one;
}

}  // namespace air

}  // namespace fogwright
