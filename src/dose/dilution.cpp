// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cmath>

#include "dose/atomic_weights.hpp"
#include "fogwright/dose.hpp"

namespace fogwright {
namespace {

using namespace atomic_weight;

constexpr double chlorine_dioxide = chlorine + 2 * oxygen;
constexpr double sodium_chlorite = sodium + chlorine + 2 * oxygen;
constexpr double sodium_hypochlorite = sodium + oxygen + chlorine;

constexpr double highest_trade_percent = 30;  // above what a solution can hold
constexpr LiquidDensity lightest_bleach(0.9, unit::gram_per_millilitre);
constexpr LiquidDensity heaviest_bleach(1.5, unit::gram_per_millilitre);

bool positive(double value) { return value > 0 && std::isfinite(value); }

Result<void> check_fraction(double fraction, std::string_view of) {
  if (fraction > 0 && fraction <= 1) return {};
  return fail(ErrorCode::out_of_range,
              fmt::format("A mass fraction of {} is not above 0 and up to 1.", show_number(fraction, 6)),
              fmt::format("strength of the {}", of),
              "Give the strength as % by mass from the label or data sheet.");
}

Result<void> check_dilution(LiquidVolume make, double target, LiquidDensity target_density, double concentrate,
                            LiquidDensity concentrate_density) {
  auto fractions =
      check_fraction(target, "mix").and_then([&] { return check_fraction(concentrate, "concentrate"); });
  if (!fractions) return fractions;
  if (target > concentrate)
    return fail(ErrorCode::out_of_range,
                fmt::format("A mix of {} % cannot be made from a concentrate of {} %.",
                            show_number(target * 100, 6), show_number(concentrate * 100, 6)),
                "strength of the mix", "Use a stronger concentrate, or check which figure belongs to which.");
  if (!positive(make.si()))
    return fail(ErrorCode::out_of_range, "The volume to make is not above zero.", "volume to make",
                "Give how much mix the jobs need.");
  if (!positive(target_density.si()) || !positive(concentrate_density.si()))
    return fail(ErrorCode::out_of_range, "A density is not above zero.", "density",
                "Give the densities from section 9 of the data sheets.");
  return {};
}

}  // namespace

Result<Dilution> dilute(LiquidVolume make, double target_fraction, LiquidDensity target_density,
                        double concentrate_fraction, LiquidDensity concentrate_density) {
  const auto checked =
      check_dilution(make, target_fraction, target_density, concentrate_fraction, concentrate_density);
  if (!checked) return tl::make_unexpected(checked.error());
  const double ratio = target_fraction / concentrate_fraction;
  const Mass mix = make * target_density;
  Dilution result;
  result.concentrate_mass = mix * ratio;
  result.concentrate = result.concentrate_mass / concentrate_density;
  result.diluent_mass = mix - result.concentrate_mass;
  result.naive_concentrate = make * ratio;
  return result;
}

double chlorite_acid_yield() noexcept { return 4 * chlorine_dioxide / (5 * sodium_chlorite); }

Result<HypochloriteStrength> hypochlorite_strength(double trade_percent, LiquidDensity density) {
  if (!(trade_percent > 0 && trade_percent <= highest_trade_percent))
    return fail(
        ErrorCode::out_of_range,
        fmt::format("A trade strength of {} % is not above 0 and up to 30.", show_number(trade_percent, 4)),
        "trade per cent", "Give grams of available chlorine per litre divided by 10, from the data sheet.");
  if (!(density >= lightest_bleach && density <= heaviest_bleach))
    return fail(ErrorCode::out_of_range,
                fmt::format("A density of {} g/mL is not that of a hypochlorite solution (0.9 to 1.5).",
                            show_number(density.value_in(unit::gram_per_millilitre), 4)),
                "density", "Give the density from section 9 of the data sheet.");
  const double available = trade_percent * 10 / density.si();  // g/L over kg/m3, which is g/L
  return HypochloriteStrength{available, available * sodium_hypochlorite / (2 * chlorine)};
}

}  // namespace fogwright
