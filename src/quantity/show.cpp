// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <cmath>
#include <cstdint>

#include "fogwright/quantity/measured.hpp"
#include "quantity/figure.hpp"

namespace fogwright {
namespace {

using namespace text;

constexpr int usual_digits = 3;

std::string with_unit(std::string figure, std::string_view symbol) {
  return figure == out_of_range_figure ? figure : figure + std::string(symbol);
}

template <class Q>
std::string fixed(Q v, Unit<Q::dimension> in, std::string_view symbol, int decimals, Rounding rounding) {
  return with_unit(fixed_figure(v.value_in(in), decimals, rounding), symbol);
}

template <class Q>
std::string working(Q v, Unit<Q::dimension> in, std::string_view symbol, Rounding rounding) {
  return with_unit(working_figure(v.value_in(in), usual_digits, rounding), symbol);
}

template <class Q>
bool below(Q v, Q bound) {
  return std::abs(v.si()) < bound.si();
}

// Whole units, or nothing if there are too many to count.
template <class Q>
bool countable(Q v, Unit<Q::dimension> in) {
  return std::abs(v.value_in(in)) < 1e15;
}

std::string hours_and_minutes(std::int64_t minutes) {
  if (minutes % 60 == 0 && minutes != 0) return fmt::format("{} h", minutes / 60);
  if (std::abs(minutes) < 60) return fmt::format("{} min", minutes);
  return fmt::format("{} h {} min", minutes / 60, std::abs(minutes % 60));
}

std::string feet_and_inches(Length v, Rounding rounding) {
  const double inches = rounded(v.value_in(unit::inch), rounding);
  if (!countable(v, unit::inch)) return std::string(out_of_range_figure);
  const auto whole = static_cast<std::int64_t>(inches);
  if (whole % 12 == 0) return fmt::format("{} ft", whole / 12);
  return fmt::format("{} ft {} in", whole / 12, std::abs(whole % 12));
}

}  // namespace

std::string show(FloorArea v, UnitSystem units, Rounding rounding) {
  if (units == UnitSystem::metric) return fixed(v, unit::square_metre, " m2", 0, rounding);
  return fixed(v, unit::square_foot, " sq ft", 0, rounding);
}

std::string show(FaceArea v, UnitSystem units, Rounding rounding) {
  if (units == UnitSystem::metric) return fixed(v, unit::square_centimetre, " cm2", 0, rounding);
  return fixed(v, unit::square_inch, " sq in", 0, rounding);
}

std::string show(Length v, UnitSystem units, Rounding rounding) {
  if (below(v, Length(1, unit::millimetre))) return working(v, unit::micrometre, " um", rounding);
  if (units == UnitSystem::metric && below(v, Length(1, unit::metre)))
    return working(v, unit::millimetre, " mm", rounding);
  if (units == UnitSystem::metric) return fixed(v, unit::metre, " m", 2, rounding);
  if (below(v, Length(3, unit::foot))) return working(v, unit::inch, " in", rounding);
  return feet_and_inches(v, rounding);
}

std::string show(AirVolume v, UnitSystem units, Rounding rounding) {
  if (units == UnitSystem::metric) return working(v, unit::cubic_metre, " m3", rounding);
  return working(v, unit::cubic_foot, " cu ft", rounding);
}

std::string show(LiquidVolume v, UnitSystem units, Rounding rounding) {
  if (units == UnitSystem::metric && below(v, LiquidVolume(1, unit::litre)))
    return fixed(v, unit::millilitre, " mL", 0, rounding);
  if (units == UnitSystem::metric) return fixed(v, unit::litre, " L", 2, rounding);
  if (below(v, LiquidVolume(1, unit::us_gallon))) return fixed(v, unit::us_fluid_ounce, " fl oz", 1, rounding);
  return fixed(v, unit::us_gallon, " gal", 2, rounding);
}

std::string show_measured(LiquidVolume v, UnitSystem units) {
  const std::string metric = below(v, LiquidVolume(1, unit::litre))
                                 ? working(v, unit::millilitre, " mL", Rounding::nearest)
                                 : working(v, unit::litre, " L", Rounding::nearest);
  if (units == UnitSystem::metric || metric == out_of_range_figure) return metric;
  const std::string customary = below(v, LiquidVolume(1, unit::us_gallon))
                                    ? working(v, unit::us_fluid_ounce, " fl oz", Rounding::nearest)
                                    : working(v, unit::us_gallon, " gal", Rounding::nearest);
  return fmt::format("{} ({})", customary, metric);
}

std::string show(LiquidFlow v, UnitSystem units, Rounding rounding) {
  if (units == UnitSystem::metric) return working(v, unit::millilitre_per_minute, " mL/min", rounding);
  return working(v, unit::us_fluid_ounce_per_minute, " fl oz/min", rounding);
}

std::string show(AirFlow v, UnitSystem units, Rounding rounding) {
  if (units == UnitSystem::metric) return working(v, unit::cubic_metre_per_hour, " m3/h", rounding);
  return working(v, unit::cubic_foot_per_minute, " cfm", rounding);
}

std::string show(Mass v, UnitSystem units, Rounding rounding) {
  // Less than a gram is the mass of an active in air, which has no customary unit.
  if (below(v, Mass(1, unit::gram))) return working(v, unit::milligram, " mg", rounding);
  if (units == UnitSystem::metric && below(v, Mass(1, unit::kilogram)))
    return working(v, unit::gram, " g", rounding);
  if (units == UnitSystem::metric) return fixed(v, unit::kilogram, " kg", 2, rounding);
  if (below(v, Mass(1, unit::ounce))) return working(v, unit::ounce, " oz", rounding);
  if (below(v, Mass(1, unit::pound))) return fixed(v, unit::ounce, " oz", 1, rounding);
  return fixed(v, unit::pound, " lb", 2, rounding);
}

std::string show(LiquidDensity v, UnitSystem units, Rounding rounding) {
  if (units == UnitSystem::metric) return fixed(v, unit::gram_per_millilitre, " g/mL", 3, rounding);
  return fixed(v, unit::pound_per_us_gallon, " lb/gal", 2, rounding);
}

std::string show(MassConcentration v, Rounding rounding) {
  return working(v, unit::milligram_per_cubic_metre, " mg/m3", rounding);
}

std::string show(FogTime v, Rounding rounding) {
  if (!countable(v, unit::second)) return std::string(out_of_range_figure);
  const auto seconds = static_cast<std::int64_t>(rounded(v.value_in(unit::second), rounding));
  if (std::abs(seconds) < 60) return fmt::format("{} s", seconds);
  if (seconds % 60 == 0) return hours_and_minutes(seconds / 60);
  return fmt::format("{} {} s", hours_and_minutes(seconds / 60), std::abs(seconds % 60));
}

std::string show(HoldTime v) {
  return countable(v, unit::minute) ? hours_and_minutes(v.ceil_in(unit::minute))
                                    : std::string(out_of_range_figure);
}

std::string show(ShelfTime v) {
  if (!countable(v, unit::minute)) return std::string(out_of_range_figure);
  if (below(v, ShelfTime(2, unit::day))) return hours_and_minutes(v.floor_in(unit::minute));
  return fixed(v, unit::day, " days", 0, Rounding::down);
}

std::string show(AirChanges v, Rounding rounding) { return working(v, unit::per_hour, " /h", rounding); }

std::string show(Temperature v, UnitSystem units) {
  if (units == UnitSystem::metric) return with_unit(fixed_figure(v.in_celsius(), 1, Rounding::nearest), " °C");
  return with_unit(fixed_figure(v.in_fahrenheit(), 0, Rounding::nearest), " °F");
}

std::string show(Pressure v, UnitSystem units) {
  if (units == UnitSystem::metric) return fixed(v, unit::hectopascal, " hPa", 0, Rounding::nearest);
  return fixed(v, unit::inch_of_mercury, " inHg", 2, Rounding::nearest);
}

}  // namespace fogwright
