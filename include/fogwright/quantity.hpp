// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Quantities with their meaning in the type.
///
/// A quantity is one double in SI units plus a kind. Two quantities of the same dimension but of another
/// kind (floor area and face area, fog time and hold time) do not mix: that is a compile error. Conversions
/// between kinds go through value_in() and are visible in the code.

#include <cmath>
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "fogwright/error.hpp"

namespace fogwright {

enum class Dimension {
  length,
  area,
  volume,
  time,
  mass,
  density,
  volume_flow,
  rate,
  pressure,
  temperature_difference
};

/// A unit of one dimension: how many SI units it is. Factors are written as the standard prints them.
template <Dimension D>
struct Unit {
  double in_si;
};

namespace unit {
// NIST SP 811 (2008) Appendix B.8; all exact by definition unless marked.
inline constexpr Unit<Dimension::length> metre{1.0};
inline constexpr Unit<Dimension::length> millimetre{0.001};
inline constexpr Unit<Dimension::length> centimetre{0.01};
inline constexpr Unit<Dimension::length> micrometre{1e-6};
inline constexpr Unit<Dimension::length> inch{0.0254};
inline constexpr Unit<Dimension::length> foot{0.3048};

inline constexpr Unit<Dimension::area> square_metre{1.0};
inline constexpr Unit<Dimension::area> square_centimetre{0.0001};
inline constexpr Unit<Dimension::area> square_foot{0.3048 * 0.3048};
inline constexpr Unit<Dimension::area> square_inch{0.0254 * 0.0254};

inline constexpr Unit<Dimension::volume> cubic_metre{1.0};
inline constexpr Unit<Dimension::volume> cubic_foot{0.3048 * 0.3048 * 0.3048};
inline constexpr Unit<Dimension::volume> litre{0.001};
inline constexpr Unit<Dimension::volume> millilitre{1e-6};
inline constexpr Unit<Dimension::volume> microlitre{1e-9};
inline constexpr Unit<Dimension::volume> us_gallon{231.0 * 0.0254 * 0.0254 * 0.0254};
inline constexpr Unit<Dimension::volume> us_quart{us_gallon.in_si / 4};
inline constexpr Unit<Dimension::volume> us_pint{us_gallon.in_si / 8};
inline constexpr Unit<Dimension::volume> us_fluid_ounce{us_gallon.in_si / 128};
inline constexpr Unit<Dimension::volume> imperial_gallon{0.00454609};

inline constexpr Unit<Dimension::time> second{1.0};
inline constexpr Unit<Dimension::time> millisecond{0.001};
inline constexpr Unit<Dimension::time> minute{60.0};
inline constexpr Unit<Dimension::time> hour{3600.0};
inline constexpr Unit<Dimension::time> day{86400.0};

inline constexpr Unit<Dimension::mass> kilogram{1.0};
inline constexpr Unit<Dimension::mass> gram{0.001};
inline constexpr Unit<Dimension::mass> milligram{1e-6};
inline constexpr Unit<Dimension::mass> pound{0.45359237};
inline constexpr Unit<Dimension::mass> ounce{0.45359237 / 16};

inline constexpr Unit<Dimension::density> kilogram_per_cubic_metre{1.0};
inline constexpr Unit<Dimension::density> gram_per_millilitre{1000.0};
inline constexpr Unit<Dimension::density> pound_per_us_gallon{pound.in_si / us_gallon.in_si};
inline constexpr Unit<Dimension::density> gram_per_cubic_metre{0.001};
inline constexpr Unit<Dimension::density> milligram_per_cubic_metre{1e-6};
inline constexpr Unit<Dimension::density> microgram_per_cubic_metre{1e-9};

inline constexpr Unit<Dimension::volume_flow> cubic_metre_per_second{1.0};
inline constexpr Unit<Dimension::volume_flow> cubic_metre_per_hour{1.0 / 3600};
inline constexpr Unit<Dimension::volume_flow> cubic_foot_per_minute{cubic_foot.in_si / 60};
inline constexpr Unit<Dimension::volume_flow> litre_per_second{0.001};
inline constexpr Unit<Dimension::volume_flow> litre_per_minute{0.001 / 60};
inline constexpr Unit<Dimension::volume_flow> millilitre_per_minute{1e-6 / 60};
inline constexpr Unit<Dimension::volume_flow> microlitre_per_minute{1e-9 / 60};
inline constexpr Unit<Dimension::volume_flow> millilitre_per_second{1e-6};
inline constexpr Unit<Dimension::volume_flow> us_fluid_ounce_per_minute{us_fluid_ounce.in_si / 60};
inline constexpr Unit<Dimension::volume_flow> us_gallon_per_hour{us_gallon.in_si / 3600};

inline constexpr Unit<Dimension::rate> per_second{1.0};
inline constexpr Unit<Dimension::rate> per_hour{1.0 / 3600};

inline constexpr Unit<Dimension::pressure> pascal{1.0};
inline constexpr Unit<Dimension::pressure> hectopascal{100.0};
inline constexpr Unit<Dimension::pressure> kilopascal{1000.0};
inline constexpr Unit<Dimension::pressure> atmosphere{101325.0};
inline constexpr Unit<Dimension::pressure> millimetre_of_mercury{133.3224};  // rounded in SP 811
inline constexpr Unit<Dimension::pressure> inch_of_mercury{3386.389};        // rounded in SP 811

inline constexpr Unit<Dimension::temperature_difference> kelvin{1.0};
inline constexpr Unit<Dimension::temperature_difference> fahrenheit_degree{1.0 / 1.8};
}  // namespace unit

/// One double in SI and a kind. Kind is an empty struct that names a dimension.
template <class Kind>
class Quantity {
 public:
  static constexpr Dimension dimension = Kind::dimension;

  constexpr Quantity() = default;
  constexpr Quantity(double value, Unit<dimension> in) : si_(value * in.in_si) {}

  [[nodiscard]] constexpr double value_in(Unit<dimension> u) const { return si_ / u.in_si; }
  /// Whole units, never more (never less) than there is: for what is recorded, where the direction of
  /// rounding is a safety decision. Values within 1e-9 of a whole number count as that number, so that
  /// the noise of a conversion does not add a unit.
  [[nodiscard]] std::int64_t floor_in(Unit<dimension> u) const {
    return static_cast<std::int64_t>(std::floor(value_in(u) * (1 + 1e-12) + 1e-9));
  }
  [[nodiscard]] std::int64_t ceil_in(Unit<dimension> u) const {
    return static_cast<std::int64_t>(std::ceil(value_in(u) * (1 - 1e-12) - 1e-9));
  }
  [[nodiscard]] bool is_finite() const { return std::isfinite(si_); }

  friend constexpr auto operator<=>(const Quantity&, const Quantity&) = default;
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return from_si(a.si_ + b.si_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return from_si(a.si_ - b.si_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return from_si(a.si_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return a * k; }
  friend constexpr Quantity operator/(Quantity a, double k) { return from_si(a.si_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.si_ / b.si_; }
  constexpr Quantity& operator+=(Quantity b) { return *this = *this + b; }
  constexpr Quantity& operator-=(Quantity b) { return *this = *this - b; }

  [[nodiscard]] constexpr double si() const { return si_; }
  [[nodiscard]] static constexpr Quantity from_si(double si) {
    Quantity q;
    q.si_ = si;
    return q;
  }

 private:
  double si_ = 0.0;
};

namespace kind {
struct Length {
  static constexpr auto dimension = Dimension::length;
};
struct FloorArea {
  static constexpr auto dimension = Dimension::area;
};
struct FaceArea {
  static constexpr auto dimension = Dimension::area;
};
struct AirVolume {
  static constexpr auto dimension = Dimension::volume;
};
struct LiquidVolume {
  static constexpr auto dimension = Dimension::volume;
};
struct FogTime {
  static constexpr auto dimension = Dimension::time;
};
struct HoldTime {
  static constexpr auto dimension = Dimension::time;
};
struct ShelfTime {
  static constexpr auto dimension = Dimension::time;
};
struct Mass {
  static constexpr auto dimension = Dimension::mass;
};
struct LiquidDensity {
  static constexpr auto dimension = Dimension::density;
};
struct MassConcentration {
  static constexpr auto dimension = Dimension::density;
};
struct LiquidFlow {
  static constexpr auto dimension = Dimension::volume_flow;
};
struct AirFlow {
  static constexpr auto dimension = Dimension::volume_flow;
};
struct AirChanges {
  static constexpr auto dimension = Dimension::rate;
};
struct Pressure {
  static constexpr auto dimension = Dimension::pressure;
};
}  // namespace kind

using Length = Quantity<kind::Length>;
using FloorArea = Quantity<kind::FloorArea>;        ///< conditioned floor area
using FaceArea = Quantity<kind::FaceArea>;          ///< open face of a return grille
using AirVolume = Quantity<kind::AirVolume>;        ///< air in a building, plenum or duct
using LiquidVolume = Quantity<kind::LiquidVolume>;  ///< product, diluent or mix
using FogTime = Quantity<kind::FogTime>;            ///< time the valve is open
using HoldTime = Quantity<kind::HoldTime>;          ///< time nobody may be inside, and what leads to it
using ShelfTime = Quantity<kind::ShelfTime>;        ///< shelf life, batch life
using Mass = Quantity<kind::Mass>;
using LiquidDensity = Quantity<kind::LiquidDensity>;
using MassConcentration = Quantity<kind::MassConcentration>;  ///< mass of a substance in air
using LiquidFlow = Quantity<kind::LiquidFlow>;                ///< what a fogger puts out
using AirFlow = Quantity<kind::AirFlow>;                      ///< what a fan or a return moves
using AirChanges = Quantity<kind::AirChanges>;                ///< outdoor air per hour over the zone's volume
using Pressure = Quantity<kind::Pressure>;

/// A point on the temperature scale (a difference of temperatures is something else).
class Temperature {
 public:
  constexpr Temperature() = default;
  [[nodiscard]] static constexpr Temperature celsius(double t) { return Temperature{t + 273.15}; }
  [[nodiscard]] static constexpr Temperature fahrenheit(double t) { return Temperature{(t + 459.67) / 1.8}; }
  [[nodiscard]] static constexpr Temperature kelvin(double t) { return Temperature{t}; }
  [[nodiscard]] constexpr double in_celsius() const { return kelvin_ - 273.15; }
  [[nodiscard]] constexpr double in_fahrenheit() const { return kelvin_ * 1.8 - 459.67; }
  [[nodiscard]] constexpr double in_kelvin() const { return kelvin_; }
  friend constexpr auto operator<=>(const Temperature&, const Temperature&) = default;

 private:
  constexpr explicit Temperature(double k) : kelvin_(k) {}
  double kelvin_ = 273.15;
};

// The products and quotients the trade needs. Nothing else multiplies.
[[nodiscard]] constexpr LiquidVolume operator*(LiquidFlow f, FogTime t) {
  return LiquidVolume::from_si(f.si() * t.si());
}
[[nodiscard]] constexpr LiquidFlow operator/(LiquidVolume v, FogTime t) {
  return LiquidFlow::from_si(v.si() / t.si());
}
[[nodiscard]] constexpr FogTime operator/(LiquidVolume v, LiquidFlow f) {
  return FogTime::from_si(v.si() / f.si());
}
[[nodiscard]] constexpr Mass operator*(LiquidVolume v, LiquidDensity d) {
  return Mass::from_si(v.si() * d.si());
}
[[nodiscard]] constexpr LiquidVolume operator/(Mass m, LiquidDensity d) {
  return LiquidVolume::from_si(m.si() / d.si());
}
[[nodiscard]] constexpr MassConcentration operator/(Mass m, AirVolume v) {
  return MassConcentration::from_si(m.si() / v.si());
}
[[nodiscard]] constexpr Mass operator*(MassConcentration c, AirVolume v) {
  return Mass::from_si(c.si() * v.si());
}
[[nodiscard]] constexpr AirVolume operator*(FloorArea a, Length h) {
  return AirVolume::from_si(a.si() * h.si());
}
[[nodiscard]] constexpr AirFlow operator*(AirVolume v, AirChanges a) {
  return AirFlow::from_si(v.si() * a.si());
}
[[nodiscard]] constexpr AirChanges operator/(AirFlow f, AirVolume v) {
  return AirChanges::from_si(f.si() / v.si());
}
[[nodiscard]] constexpr FaceArea face_area(Length width, Length height) {
  return FaceArea::from_si(width.si() * height.si());
}

/// Where a figure comes from; shown beside it.
enum class Basis {
  label,
  data_sheet,
  regulation,
  policy,
  measured,
  estimated,
  common_practice,
  assumed,
  entered
};
/// As shown: "label", "common practice", ...
[[nodiscard]] std::string_view basis_name(Basis basis) noexcept;

/// A value as someone typed it: the exact value and the words, which are what the record keeps.
template <class Q>
struct Typed {
  Q value{};
  std::string text;
};

enum class UnitSystem { us_customary, metric };

// --- Reading ---------------------------------------------------------------------------------------------
// All readers take the units crews use ("2,400 sq ft", "223 m2", "1/3 gal", "1 1/2 qt", "12 fl oz",
// "180 mL/min", "8'6\"", "70 F"), never use the locale, and refuse what they do not understand with
// ErrorCode::not_understood, the value quoted, and the accepted forms as the hint. A number without a unit
// is refused, except where `bare` names the unit to assume. Signs, NaN, infinity, overflow and trailing
// text are refused; zero is read (whether zero makes sense is the caller's question). Commas only group
// thousands ("2,400"); exponents and clock times are refused; a text holds at most 200 bytes. More than
// 9e9 SI units counts as overflow, so that every value that was read fits the recorded integers
// (microlitres, milliseconds). Unit spellings ignore case.
// `where` goes into Error::where (an option or "file:line:column").

struct BareUnit {
  std::string_view symbol;  ///< a symbol that the reader knows, e.g. "sq ft"; empty: a unit must be given
};

[[nodiscard]] Result<FloorArea> read_floor_area(std::string_view text, std::string_view where,
                                                BareUnit bare = {});
/// Also takes "20x30 in", "20 in x 30 in", "500 x 750 mm".
[[nodiscard]] Result<FaceArea> read_face_area(std::string_view text, std::string_view where,
                                              BareUnit bare = {});
[[nodiscard]] Result<Length> read_length(std::string_view text, std::string_view where, BareUnit bare = {});
[[nodiscard]] Result<AirVolume> read_air_volume(std::string_view text, std::string_view where,
                                                BareUnit bare = {});
[[nodiscard]] Result<LiquidVolume> read_liquid_volume(std::string_view text, std::string_view where,
                                                      BareUnit bare = {});
[[nodiscard]] Result<LiquidFlow> read_liquid_flow(std::string_view text, std::string_view where,
                                                  BareUnit bare = {});
[[nodiscard]] Result<AirFlow> read_air_flow(std::string_view text, std::string_view where, BareUnit bare = {});
[[nodiscard]] Result<Mass> read_mass(std::string_view text, std::string_view where, BareUnit bare = {});
[[nodiscard]] Result<LiquidDensity> read_liquid_density(std::string_view text, std::string_view where,
                                                        BareUnit bare = {});
[[nodiscard]] Result<MassConcentration> read_mass_concentration(std::string_view text, std::string_view where,
                                                                BareUnit bare = {});
[[nodiscard]] Result<FogTime> read_fog_time(std::string_view text, std::string_view where, BareUnit bare = {});
[[nodiscard]] Result<HoldTime> read_hold_time(std::string_view text, std::string_view where,
                                              BareUnit bare = {});
/// Also days, weeks, months (30 days) and years (365 days): rounded down, so that nothing is kept too long.
[[nodiscard]] Result<ShelfTime> read_shelf_time(std::string_view text, std::string_view where,
                                                BareUnit bare = {});
[[nodiscard]] Result<AirChanges> read_air_changes(std::string_view text, std::string_view where,
                                                  BareUnit bare = {});
[[nodiscard]] Result<Pressure> read_pressure(std::string_view text, std::string_view where, BareUnit bare = {});
/// "70 F", "21 C", "-5 °C", "294 K": here a sign is allowed. Below absolute zero: ErrorCode::out_of_range.
[[nodiscard]] Result<Temperature> read_temperature(std::string_view text, std::string_view where,
                                                   BareUnit bare = {});
/// A plain number without a unit: "0.5", "1/3", "1 1/2", "2,400". Not negative.
[[nodiscard]] Result<double> read_number(std::string_view text, std::string_view where);
/// "0.5 %", "500 ppm" (by mass), "0.005": a fraction from 0 to 1; more than 1: ErrorCode::out_of_range.
[[nodiscard]] Result<double> read_mass_fraction(std::string_view text, std::string_view where);

// --- Printing --------------------------------------------------------------------------------------------
/// Which way a printed figure may be off. `up` never prints less than there is and `down` never more, but for
/// a billionth of the last digit: the noise of a conversion, as in Quantity::floor_in() and ceil_in().
enum class Rounding { nearest, up, down };

// Each prints a figure with its unit in the chosen system, with as many digits as a person on the job can
// use: "2,400 sq ft" / "223 m2"; "12.8 fl oz" / "379 mL"; "180 mL/min"; "0.38 mg/m3"; "24 h 30 min". What is
// printed can be read again. A value that is not finite, or has more than 15 digits, prints as "out of range".
[[nodiscard]] std::string show(FloorArea v, UnitSystem units, Rounding rounding = Rounding::nearest);
[[nodiscard]] std::string show(FaceArea v, UnitSystem units, Rounding rounding = Rounding::nearest);
[[nodiscard]] std::string show(Length v, UnitSystem units, Rounding rounding = Rounding::nearest);
[[nodiscard]] std::string show(AirVolume v, UnitSystem units, Rounding rounding = Rounding::nearest);
[[nodiscard]] std::string show(LiquidVolume v, UnitSystem units, Rounding rounding = Rounding::nearest);
[[nodiscard]] std::string show(LiquidFlow v, UnitSystem units, Rounding rounding = Rounding::nearest);
[[nodiscard]] std::string show(AirFlow v, UnitSystem units, Rounding rounding = Rounding::nearest);
[[nodiscard]] std::string show(Mass v, UnitSystem units, Rounding rounding = Rounding::nearest);
[[nodiscard]] std::string show(LiquidDensity v, UnitSystem units, Rounding rounding = Rounding::nearest);
/// Always mg/m3 (the canonical unit of this project).
[[nodiscard]] std::string show(MassConcentration v, Rounding rounding = Rounding::nearest);
/// "2 min 6 s"; whole seconds.
[[nodiscard]] std::string show(FogTime v, Rounding rounding = Rounding::nearest);
/// "1 h 30 min"; whole minutes, always rounded up.
[[nodiscard]] std::string show(HoldTime v);
/// "365 days", or below two days "36 h 15 min"; always rounded down.
[[nodiscard]] std::string show(ShelfTime v);
[[nodiscard]] std::string show(AirChanges v, Rounding rounding = Rounding::nearest);
[[nodiscard]] std::string show(Temperature v, UnitSystem units);
[[nodiscard]] std::string show(Pressure v, UnitSystem units);
/// A number with `digits` (1 to 15) significant digits, grouped by thousands, without the locale and without
/// trailing zeros behind the point: "12,300", "0.38", "5".
[[nodiscard]] std::string show_number(double value, int digits, Rounding rounding = Rounding::nearest);

}  // namespace fogwright
