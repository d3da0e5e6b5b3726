// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "fogwright/air.hpp"

namespace fogwright {

namespace {

struct Row {
  double percent = 0, g_per_ml = 0;
};
/// Aqueous hydrogen peroxide at 18 °C, chemical engineers' handbook (from memory; within 0.3 % of every anchor
/// that was read: tests/air/density_test.cpp).
constexpr Row table[] = {
    {0, 0.9986},  {2, 1.0058},  {4, 1.0131},  {6, 1.0204},  {8, 1.0277},   {10, 1.0351}, {12, 1.0425},
    {14, 1.0499}, {16, 1.0574}, {18, 1.0649}, {20, 1.0725}, {22, 1.0802},  {24, 1.0880}, {26, 1.0959},
    {28, 1.1040}, {30, 1.1122}, {35, 1.1327}, {40, 1.1536}, {45, 1.1749},  {50, 1.1966}, {55, 1.2188},
    {60, 1.2416}, {70, 1.2897}, {80, 1.3406}, {90, 1.3931}, {100, 1.4465},
};

}  // namespace

Result<LiquidDensity> peroxide_density(double mass_fraction) {
  if (!(mass_fraction >= 0 && mass_fraction <= 1))
    return fail(ErrorCode::out_of_range,
                fmt::format("a mass fraction of {:.6g} is not between 0 and 1", mass_fraction), "mass fraction",
                "give the strength by mass, from 0 to 100 %");
  const double percent = mass_fraction * 100;
  const auto* above = std::upper_bound(std::begin(table), std::end(table), percent,
                                       [](double wanted, const Row& row) { return wanted < row.percent; });
  if (above == std::end(table)) --above;
  const auto* below = above - 1;
  const double share = (percent - below->percent) / (above->percent - below->percent);
  return LiquidDensity{below->g_per_ml + share * (above->g_per_ml - below->g_per_ml),
                       unit::gram_per_millilitre};
}

}  // namespace fogwright
