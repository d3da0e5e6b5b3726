// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <array>

#include "fogwright/gate.hpp"

namespace fogwright {

namespace {

constexpr std::string_view quarter = "quarter mask", half = "half mask", full = "full facepiece",
                           hood = "helmet/hood", loose = "loose-fitting facepiece";
constexpr std::string_view purifying = "air-purifying", papr = "PAPR", sar_demand = "SAR, demand",
                           sar_flow = "SAR, continuous flow", sar_pressure = "SAR, pressure-demand",
                           scba_demand = "SCBA, demand", scba_pressure = "SCBA, pressure-demand";

/// 29 CFR 1910.134(d)(3)(i)(A) Table 1, the cells that hold a factor.
constexpr ProtectionFactor factors[] = {{purifying, quarter, 5},
                                        {purifying, half, 10},
                                        {purifying, full, 50},
                                        {papr, half, 50},
                                        {papr, full, 1000},
                                        {papr, hood, 25},
                                        {papr, loose, 25},
                                        {sar_demand, half, 10},
                                        {sar_demand, full, 50},
                                        {sar_flow, half, 50},
                                        {sar_flow, full, 1000},
                                        {sar_flow, hood, 25},
                                        {sar_flow, loose, 25},
                                        {sar_pressure, half, 50},
                                        {sar_pressure, full, 1000},
                                        {scba_demand, half, 10},
                                        {scba_demand, full, 50},
                                        {scba_demand, hood, 50},
                                        {scba_pressure, full, 10'000},
                                        {scba_pressure, hood, 10'000}};

constexpr int factor_of(std::string_view respirator, std::string_view facepiece) {
  for (const ProtectionFactor& cell : factors)
    if (cell.respirator == respirator && cell.facepiece == facepiece) return cell.factor;
  return 0;
}

struct Worn {
  int factor;
  std::string_view words;
};

/// In the order of Facepiece. Note 3 of the table: a filtering facepiece counts as a half mask.
constexpr std::array<Worn, 7> worn{
    {{0, "no respirator"},
     {factor_of(purifying, half), "filtering facepiece"},
     {factor_of(purifying, half), "half mask"},
     {factor_of(purifying, full), "full facepiece"},
     {factor_of(papr, full), "powered air-purifying respirator with full facepiece"},
     {factor_of(sar_pressure, full), "pressure-demand supplied-air respirator with full facepiece"},
     {factor_of(scba_pressure, full),
      "pressure-demand self-contained breathing apparatus with full facepiece, or supplied air with an escape "
      "bottle"}}};

}  // namespace

std::span<const ProtectionFactor> assigned_protection_factors() { return factors; }

int protection_factor(Facepiece facepiece) noexcept { return worn[static_cast<std::size_t>(facepiece)].factor; }

std::string_view respirator_words(Facepiece facepiece) noexcept {
  return worn[static_cast<std::size_t>(facepiece)].words;
}

MassConcentration maximum_use_concentration(int factor, MassConcentration limit,
                                            std::optional<MassConcentration> immediately_dangerous) {
  const MassConcentration by_factor = limit * factor;
  return immediately_dangerous ? std::min(by_factor, *immediately_dangerous) : by_factor;
}

}  // namespace fogwright
