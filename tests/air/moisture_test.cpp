// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "air/house.hpp"
#include "table_file.hpp"

using namespace house;

namespace {

Approx near(double value) { return Approx(value).epsilon(1e-10); }
Temperature c(double t) { return Temperature::celsius(t); }

Moisture moisture(LiquidVolume volume, double g_per_ml = 0.99705, double celsius = 25, double humidity = 0.5) {
  Zone zone = bare_house();
  zone.temperature = c(celsius);
  const Label label = label_with({}, g_per_ml);
  AirInput input = input_of(label, volume);
  input.relative_humidity = humidity;
  input.coldest_surface = c(18);
  return air_after_fogging(zone, input).value().moisture;
}

}  // namespace

TEST_CASE("saturation pressures as printed by ASHRAE") {
  const auto rows = testing::word_rows("saturation_pressure.txt");
  REQUIRE(rows.size() == 6);
  for (const auto& row : rows) {
    CAPTURE(row);
    CHECK(saturation_pressure_pa(c(std::stod(row[0]))) == Approx(std::stod(row[1])).epsilon(300e-6));
  }
}

TEST_CASE("Hyland-Wexler to twelve digits (computed independently)") {
  CHECK(saturation_pressure_pa(c(5)) == near(872.486654264));
  CHECK(saturation_pressure_pa(c(20)) == near(2338.80370007));
  CHECK(saturation_pressure_pa(c(25)) == near(3169.21647014));
  CHECK(saturation_pressure_pa(c(50)) == near(12349.8564667));
  CHECK(saturation_pressure_pa(c(100)) == near(101418.716828));
}

// The formula of Buck read in an encyclopaedia, that of Magnus from memory; values computed independently.
TEST_CASE(
    "another formula for the same pressure agrees (Buck 1996, -0.022 % at 25 °C; Magnus of the WMO, -0.289 "
    "%)") {
  CHECK(saturation_pressure_pa(c(25)) == Approx(3168.53141228).epsilon(0.00023));
  CHECK(saturation_pressure_pa(c(25)) == Approx(3160.05691649).epsilon(0.0029));
}

TEST_CASE("humidity ratios: ASHRAE values quoted in the tests of psychrolib") {
  CHECK(humidity_ratio(3169.7, Pressure{95461, unit::pascal}) == near(0.0213603998047487));
  CHECK(humidity_ratio(saturation_pressure_pa(c(25)), Pressure{1, unit::atmosphere}) ==
        Approx(0.020173).epsilon(0.005));
  CHECK(humidity_ratio(saturation_pressure_pa(c(25)), Pressure{1, unit::atmosphere}) == near(0.0200811227483));
}

// Computed independently but for the first.
TEST_CASE("dew points") {
  CHECK(dew_point(c(25), 0.8).in_celsius() == Approx(21.3094).margin(5e-5));  // psychrolib's own example
  CHECK(dew_point(c(25), 0.8).in_celsius() == near(21.3093971633));           // computed independently
  CHECK(dew_point(c(25), 0.5).in_celsius() == near(13.8639732695));
  CHECK(dew_point(c(20), 0.6).in_celsius() == near(12.0074698918));
}

TEST_CASE("the dew point inverts the saturation pressure, through freezing, and stays a number at the ends") {
  for (double t = -10; t <= 50; t += 2.5) {
    for (double humidity = 0.01; humidity < 1; humidity += 0.0707) {
      CAPTURE(t, humidity);
      const double pressure = humidity * saturation_pressure_pa(c(t));
      CHECK(saturation_pressure_pa(dew_point(c(t), humidity)) == Approx(pressure).epsilon(2e-5));
    }
  }
  CHECK(dew_point(c(25), 1) == c(25));
  CHECK(dew_point(c(25), 1.3) == c(25));
  CHECK(dew_point(c(25), 0).in_celsius() == Approx(-100));
}

TEST_CASE("moisture that fogging adds (computed independently)") {
  const auto litre = moisture(LiquidVolume{1, unit::litre});
  CHECK(litre.relative_humidity_before == 0.5);
  CHECK(litre.relative_humidity_after == near(0.595550924894));
  CHECK(litre.dew_point_after.in_celsius() == near(16.5840711729));
  CHECK(litre.condensate.si() == 0);
  CHECK(litre.wets_coldest_surface == false);

  const auto gallon = moisture(LiquidVolume{1, unit::us_gallon});
  CHECK(gallon.relative_humidity_after == near(0.861699597067));
  CHECK(gallon.dew_point_after.in_celsius() == near(22.5266278535));
  CHECK(gallon.wets_coldest_surface == true);

  const auto two = moisture(LiquidVolume{2, unit::us_gallon});
  CHECK(two.relative_humidity_after == near(1.22339919413));
  CHECK(two.condensate.value_in(unit::gram) == near(2331.11470933));
  CHECK(two.dew_point_after == c(25));

  const auto cool = moisture(LiquidVolume{1, unit::us_gallon}, 0.9982, 20, 0.6);
  CHECK(cool.relative_humidity_after == near(1.08246061879));
  CHECK(cool.condensate.value_in(unit::gram) == near(645.825836619));
  CHECK(cool.wets_coldest_surface == true);
}

TEST_CASE("a surface colder than the dew point gets wet, and is not judged where it is not known") {
  const Label label = label_with({});
  AirInput input = input_of(label, LiquidVolume{});
  CHECK_FALSE(air_after_fogging(bare_house(), input)->moisture.wets_coldest_surface.has_value());
  input.coldest_surface = c(13.8);  // dew point at 25 °C and 50 %: 13.86 °C
  CHECK(air_after_fogging(bare_house(), input)->moisture.wets_coldest_surface == true);
  input.coldest_surface = c(13.9);
  CHECK(air_after_fogging(bare_house(), input)->moisture.wets_coldest_surface == false);
}
