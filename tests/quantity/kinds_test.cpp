// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "fogwright/quantity.hpp"

using namespace fogwright;

TEST_CASE("products and quotients of quantities have the kind and size they should") {
  // 180 mL/min for 2 min is 360 mL; 360 g of water-like liquid at 1 g/mL is 360 mL.
  const LiquidVolume fogged = LiquidFlow(180, unit::millilitre_per_minute) * FogTime(2, unit::minute);
  CHECK(fogged.value_in(unit::millilitre) == Approx(360));
  CHECK((fogged / FogTime(2, unit::minute)).value_in(unit::millilitre_per_minute) == Approx(180));
  CHECK((fogged / LiquidFlow(180, unit::millilitre_per_minute)).value_in(unit::second) == Approx(120));
  CHECK((fogged * LiquidDensity(1, unit::gram_per_millilitre)).value_in(unit::gram) == Approx(360));
  CHECK((Mass(360, unit::gram) / LiquidDensity(1, unit::gram_per_millilitre)).value_in(unit::millilitre) ==
        Approx(360));
  const AirVolume house = FloorArea(2400, unit::square_foot) * Length(8, unit::foot);
  CHECK(house.value_in(unit::cubic_foot) == Approx(19200));
  CHECK((Mass(1, unit::gram) / AirVolume(10, unit::cubic_metre)).value_in(unit::milligram_per_cubic_metre) ==
        Approx(100));
  CHECK((MassConcentration(100, unit::milligram_per_cubic_metre) * AirVolume(10, unit::cubic_metre))
            .value_in(unit::gram) == Approx(1));
  CHECK((house * AirChanges(0.5, unit::per_hour)).value_in(unit::cubic_foot_per_minute) == Approx(160));
  CHECK((AirFlow(160, unit::cubic_foot_per_minute) / house).value_in(unit::per_hour) == Approx(0.5));
  CHECK(face_area(Length(20, unit::inch), Length(30, unit::inch)).value_in(unit::square_inch) == Approx(600));
}

TEST_CASE("what is recorded is whole units on the side that was asked for, and noise adds none") {
  const FogTime noisy(0.1 * 3 * 360, unit::second);  // 108.00000000000001 s
  REQUIRE(noisy.si() > 108.0);
  CHECK(noisy.ceil_in(unit::second) == 108);
  CHECK(FogTime(107.99999999999999, unit::second).floor_in(unit::second) == 108);
  CHECK(FogTime(108.001, unit::second).ceil_in(unit::second) == 109);
  CHECK(FogTime(107.999, unit::second).floor_in(unit::second) == 107);
  CHECK(LiquidVolume(1, unit::us_gallon).floor_in(unit::microlitre) == 3'785'411);
  CHECK(LiquidVolume(1, unit::us_gallon).ceil_in(unit::microlitre) == 3'785'412);
}

TEST_CASE("the largest value that is read fits the recorded integers") {
  const auto most = read_liquid_volume("9,000,000,000,000 L", "");
  REQUIRE(most);
  CHECK(most->floor_in(unit::microlitre) == Approx(9e18).epsilon(1e-11));
  CHECK_FALSE(read_liquid_volume("9,000,000,000,001 L", ""));
}
