// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "fogwright/dose.hpp"

namespace fogwright {
namespace {

constexpr LiquidVolume usual_fill(0.5, unit::us_gallon);  // common practice, no source
constexpr LiquidVolume largest_volume(1000, unit::cubic_metre);
constexpr std::int64_t most_fills = 1000;

Error unusable(std::string message, std::string where, std::string hint) {
  return {ErrorCode::out_of_range, std::move(message), std::move(where), std::move(hint)};
}

Result<LiquidVolume> needed_for(std::span<const LiquidVolume> volumes, double reserve) {
  if (volumes.empty())
    return fail(ErrorCode::missing_value, "There is no job to load for.", "jobs",
                "Give the volume of at least one job.");
  if (!(reserve >= 0 && reserve <= 1))
    return tl::make_unexpected(
        unusable(fmt::format("A reserve of {} is not between 0 and 1.", show_number(reserve, 4)), "reserve",
                 "Give it as a fraction of the load, such as 0.1."));
  LiquidVolume sum;
  for (std::size_t i = 0; i < volumes.size(); ++i) {
    if (!(volumes[i].si() > 0 && volumes[i] <= largest_volume))
      return tl::make_unexpected(
          unusable(fmt::format("The volume of job {} is not above zero and up to 1,000 m3.", i + 1),
                   fmt::format("job {}", i + 1), "Plan this job again, or leave it out."));
    sum += volumes[i];
  }
  return sum * (1 + reserve);
}

Result<LiquidVolume> fill_by_weight(const Fogger& fogger, LiquidDensity density) {
  if (!fogger.empty_mass)
    return fail(ErrorCode::missing_value, "A carry limit needs the mass of the empty fogger.",
                "fogger: empty mass", "Weigh the empty fogger, or leave out the carry limit.");
  const Mass liquid = *fogger.carry_limit - *fogger.empty_mass;
  if (fogger.empty_mass->si() >= 0 && liquid.si() > 0 && liquid.is_finite()) return liquid / density;
  return tl::make_unexpected(
      unusable(fmt::format("The carry limit of {} kg leaves nothing above the empty fogger's {} kg.",
                           show_number(fogger.carry_limit->si(), 4), show_number(fogger.empty_mass->si(), 4)),
               "fogger: carry limit", "Check both, or use a lighter fogger."));
}

// What one fill can be at most; `needed` where neither tank nor weight limits it.
Result<LiquidVolume> largest_fill(const Fogger& fogger, LiquidDensity density, LiquidVolume needed) {
  if (fogger.tank && !(fogger.tank->si() > 0 && *fogger.tank <= largest_volume))
    return tl::make_unexpected(unusable("The tank's capacity is not above zero and up to 1,000 m3.",
                                        "fogger: tank", "Read it off the tank, or leave it out."));
  const LiquidVolume by_tank = fogger.tank.value_or(needed);
  if (!fogger.carry_limit) return by_tank;
  const auto by_weight = fill_by_weight(fogger, density);
  if (!by_weight) return by_weight;
  return fogger.tank ? std::min(by_tank, *by_weight) : *by_weight;
}

// In whole microlitres on both sides, so that a tank that just holds the load is filled once.
Result<int> fills_of(LiquidVolume needed, LiquidVolume fill) {
  const std::int64_t held = needed.floor_in(unit::microlitre);
  const std::int64_t per_fill = std::min(fill, needed).floor_in(unit::microlitre);
  if (held == per_fill) return 1;
  if (per_fill < 1 || held / most_fills >= per_fill)
    return tl::make_unexpected(unusable(fmt::format("The load takes more than {} fills.", most_fills),
                                        "fogger: tank", "Check the tank, the carry limit and the volumes."));
  return static_cast<int>((held + per_fill - 1) / per_fill);
}

}  // namespace

Result<RouteLoad> route_load(std::span<const LiquidVolume> high_volumes, double reserve, LiquidDensity density,
                             const Fogger& fogger) {
  if (!(density.si() > 0 && density.is_finite()))
    return tl::make_unexpected(unusable("The density of the product is not above zero.", "density",
                                        "Correct the density in the product profile."));
  const auto needed = needed_for(high_volumes, reserve);
  if (!needed) return tl::make_unexpected(needed.error());
  const auto fill = largest_fill(fogger, density, *needed);
  if (!fill) return tl::make_unexpected(fill.error());

  RouteLoad load;
  load.needed = *needed;
  load.needed_microlitres = needed->ceil_in(unit::microlitre);
  load.fill = *fill;
  const auto fills = fills_of(*needed, *fill);
  if (!fills) return tl::make_unexpected(fills.error());
  load.fills = *fills;
  const LiquidVolume carried = std::min(*needed, *fill);
  load.liquid_mass = carried * density;
  load.above_usual_fill = carried.floor_in(unit::microlitre) > usual_fill.ceil_in(unit::microlitre);
  return load;
}

}  // namespace fogwright
