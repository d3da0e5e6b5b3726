// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <limits>
#include <set>

#include "fogwright/quantity.hpp"
#include "fogwright/quantity/measured.hpp"

using namespace fogwright;

namespace {
constexpr auto us = UnitSystem::us_customary;
constexpr auto metric = UnitSystem::metric;
}  // namespace

TEST_CASE("areas print in whole units with thousands grouped") {
  CHECK(show(FloorArea(2400, unit::square_foot), us) == "2,400 sq ft");
  CHECK(show(FloorArea(2400, unit::square_foot), metric) == "223 m2");
  CHECK(show(FloorArea(1234567, unit::square_foot), us) == "1,234,567 sq ft");
  CHECK(show(FloorArea(999.4, unit::square_foot), us) == "999 sq ft");
  CHECK(show(FaceArea(600, unit::square_inch), us) == "600 sq in");
  CHECK(show(FaceArea(600, unit::square_inch), metric) == "3,871 cm2");
}

TEST_CASE("lengths print as feet and inches, or in the metric unit of their size") {
  CHECK(show(Length(8, unit::foot), us) == "8 ft");
  CHECK(show(Length(8.5, unit::foot), us) == "8 ft 6 in");
  CHECK(show(Length(7.99, unit::foot), us) == "8 ft");
  CHECK(show(Length(20.5, unit::inch), us) == "20.5 in");
  CHECK(show(Length(20, unit::inch), metric) == "508 mm");
  CHECK(show(Length(8, unit::foot), metric) == "2.44 m");
  CHECK(show(Length(15, unit::micrometre), us) == "15 um");
}

TEST_CASE(
    "liquids print in fluid ounces below a gallon, millilitres below a litre, and the larger unit above") {
  CHECK(show(LiquidVolume(0.1, unit::us_gallon), us) == "12.8 fl oz");
  CHECK(show(LiquidVolume(12, unit::us_fluid_ounce), us) == "12.0 fl oz");
  CHECK(show(LiquidVolume(1, unit::us_gallon), us) == "1.00 gal");
  CHECK(show(LiquidVolume(0.1, unit::us_gallon), metric) == "379 mL");
  CHECK(show(LiquidVolume(1, unit::us_gallon), metric) == "3.79 L");
  CHECK(show(LiquidVolume(999, unit::millilitre), metric) == "999 mL");
  CHECK(show(LiquidFlow(180, unit::millilitre_per_minute), metric) == "180 mL/min");
  CHECK(show(LiquidFlow(180, unit::millilitre_per_minute), us) == "6.09 fl oz/min");
}

TEST_CASE("air, mass, density, rates, temperature and pressure print in the chosen system") {
  CHECK(show(AirVolume(19200, unit::cubic_foot), us) == "19,200 cu ft");
  CHECK(show(AirVolume(19200, unit::cubic_foot), metric) == "544 m3");
  CHECK(show(AirFlow(1200, unit::cubic_foot_per_minute), us) == "1,200 cfm");
  CHECK(show(AirFlow(1200, unit::cubic_foot_per_minute), metric) == "2,039 m3/h");
  CHECK(show(Mass(2.8, unit::pound), us) == "2.80 lb");
  CHECK(show(Mass(12, unit::ounce), us) == "12.0 oz");
  CHECK(show(Mass(1038, unit::milligram), us) == "0.0366 oz");
  CHECK(show(Mass(1038, unit::milligram), metric) == "1.04 g");
  CHECK(show(Mass(2.8, unit::pound), metric) == "1.27 kg");
  CHECK(show(Mass(85.25, unit::gram), metric) == "85.3 g");
  CHECK(show(Mass(85, unit::milligram), us) == "85 mg");
  CHECK(show(LiquidDensity(1.02, unit::gram_per_millilitre), metric) == "1.020 g/mL");
  CHECK(show(LiquidDensity(1.02, unit::gram_per_millilitre), us) == "8.51 lb/gal");
  CHECK(show(MassConcentration(0.38, unit::milligram_per_cubic_metre)) == "0.38 mg/m3");
  CHECK(show(MassConcentration(12345.6, unit::milligram_per_cubic_metre)) == "12,346 mg/m3");
  CHECK(show(AirChanges(0.18, unit::per_hour)) == "0.18 /h");
  CHECK(show(AirChanges(5, unit::per_hour)) == "5 /h");
  CHECK(show(Temperature::fahrenheit(70), us) == "70 °F");
  CHECK(show(Temperature::fahrenheit(70), metric) == "21.1 °C");
  CHECK(show(Temperature::celsius(-5), metric) == "-5.0 °C");
  CHECK(show(Pressure(1, unit::atmosphere), us) == "29.92 inHg");
  CHECK(show(Pressure(1, unit::atmosphere), metric) == "1,013 hPa");
}

TEST_CASE("what is measured out keeps three significant digits, however little it is") {
  const LiquidVolume little(4.88, unit::millilitre);
  CHECK(show_measured(little, UnitSystem::us_customary) == "0.165 fl oz (4.88 mL)");
  CHECK(show_measured(little, UnitSystem::metric) == "4.88 mL");
  CHECK(show_measured(LiquidVolume(2, unit::us_gallon), UnitSystem::us_customary) == "2 gal (7.57 L)");
  CHECK(show_measured(LiquidVolume(16.1, unit::us_fluid_ounce), UnitSystem::us_customary) ==
        "16.1 fl oz (476 mL)");
}

TEST_CASE("a fog time prints in whole seconds, rounded as asked") {
  CHECK(show(FogTime(48, unit::second)) == "48 s");
  CHECK(show(FogTime(126, unit::second)) == "2 min 6 s");
  CHECK(show(FogTime(120, unit::second)) == "2 min");
  CHECK(show(FogTime(3606, unit::second)) == "1 h 6 s");
  CHECK(show(FogTime(47.2, unit::second), Rounding::up) == "48 s");
  CHECK(show(FogTime(48.9, unit::second), Rounding::down) == "48 s");
  CHECK(show(FogTime(59.6, unit::second)) == "1 min");
  CHECK(show(FogTime(0, unit::second)) == "0 s");
}

TEST_CASE("a hold prints in whole minutes, never less than it is, and keeps hours beyond a day") {
  CHECK(show(HoldTime(90, unit::minute)) == "1 h 30 min");
  CHECK(show(HoldTime(89.001, unit::minute)) == "1 h 30 min");
  CHECK(show(HoldTime(1, unit::second)) == "1 min");
  CHECK(show(HoldTime(26, unit::hour)) == "26 h");
  CHECK(show(HoldTime(26 * 60 + 10, unit::minute)) == "26 h 10 min");
  CHECK(show(HoldTime(60, unit::minute)) == "1 h");
  CHECK(show(HoldTime(0, unit::minute)) == "0 min");
}

TEST_CASE("a shelf life prints in whole days, never more than it is, and in hours below two days") {
  CHECK(show(ShelfTime(365, unit::day)) == "365 days");
  CHECK(show(ShelfTime(89.99, unit::day)) == "89 days");
  CHECK(show(ShelfTime(36.26, unit::hour)) == "36 h 15 min");
  CHECK(show(ShelfTime(8, unit::hour)) == "8 h");
}

TEST_CASE("a number prints with its significant digits and no trailing zeros") {
  CHECK(show_number(12345.6, 3) == "12,300");
  CHECK(show_number(12345.6, 3, Rounding::up) == "12,400");
  CHECK(show_number(12345.6, 6) == "12,345.6");
  CHECK(show_number(0.0003456, 2, Rounding::up) == "0.00035");
  CHECK(show_number(0.0003456, 2, Rounding::down) == "0.00034");
  CHECK(show_number(9.996, 3) == "10");
  CHECK(show_number(999.6, 3) == "1,000");
  CHECK(show_number(5.0, 3) == "5");
  CHECK(show_number(0.0, 3) == "0");
  CHECK(show_number(-1234.5, 2) == "-1,200");
  CHECK(show_number(-0.04, 1, Rounding::up) == "-0.04");
  CHECK(show_number(1e20, 2) == "100,000,000,000,000,000,000");
}

TEST_CASE("the noise of a conversion does not add a unit to what is printed") {
  CHECK(show(FogTime(0.1 * 3 * 360, unit::second), Rounding::up) == "1 min 48 s");
  CHECK(show(LiquidVolume(12.8, unit::us_fluid_ounce), us, Rounding::up) == "12.8 fl oz");
  CHECK(show(LiquidVolume(12.8, unit::us_fluid_ounce), us, Rounding::down) == "12.8 fl oz");
}

TEST_CASE("what is not finite or too large prints as out of range, without a unit") {
  const double inf = std::numeric_limits<double>::infinity();
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double v : {inf, -inf, nan, 1e300}) {
    CAPTURE(v);
    CHECK(show(FloorArea::from_si(v), us) == "out of range");
    CHECK(show(Length::from_si(v), us) == "out of range");
    CHECK(show(Length::from_si(v), metric) == "out of range");
    CHECK(show(MassConcentration::from_si(v), Rounding::up) == "out of range");
    CHECK(show(FogTime::from_si(v)) == "out of range");
    CHECK(show(HoldTime::from_si(v)) == "out of range");
    CHECK(show(ShelfTime::from_si(v)) == "out of range");
    CHECK(show(Temperature::kelvin(v), us) == "out of range");
  }
  CHECK(show_number(nan, 3) == "out of range");
}

TEST_CASE("every basis has a name of its own") {
  std::set<std::string_view> names;
  for (int i = 0; i <= static_cast<int>(Basis::entered); ++i) names.insert(basis_name(static_cast<Basis>(i)));
  CHECK(names.size() == 9);
  CHECK(names.count("common practice") == 1);
  CHECK(names.count("data sheet") == 1);
}
