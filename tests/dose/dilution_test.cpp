// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <limits>

#include "dose/houses.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

double grams(Mass mass) { return mass.value_in(unit::gram); }
double in_ml(LiquidVolume volume) { return volume.value_in(unit::millilitre); }
constexpr double tight = 1e-11;

}  // namespace

TEST_CASE("peroxide is diluted by mass", "[dose]") {
  // Computed independently from m1 w1 = m2 w2 with the densities shown (from memory, after handbook tables).
  const Dilution strong = dilute(ml(1000), 0.075, g_per_ml(1.0253), 0.35, g_per_ml(1.1312)).value();
  CHECK(in_ml(strong.concentrate) == Approx(194.224843403).epsilon(tight));
  CHECK(grams(strong.concentrate_mass) == Approx(219.707142857).epsilon(tight));
  CHECK(grams(strong.diluent_mass) == Approx(805.592857143).epsilon(tight));
  CHECK(in_ml(strong.naive_concentrate) == Approx(214.285714286).epsilon(tight));
  CHECK(strong.naive_concentrate / strong.concentrate - 1 == Approx(0.103287).epsilon(1e-5));

  const Dilution gallon = dilute(gallons(1), 0.03, g_per_ml(1.0090), 0.30, g_per_ml(1.1112)).value();
  CHECK(in_ml(gallon.concentrate) == Approx(343.725746045).epsilon(tight));
  CHECK(gallon.concentrate.value_in(unit::us_fluid_ounce) == Approx(11.6227501800).epsilon(tight));
  CHECK(in_ml(gallon.naive_concentrate) == Approx(378.5411784).epsilon(tight));
}

TEST_CASE("where densities are equal, C1 V1 = C2 V2 holds", "[dose]") {
  // Computed independently: 5 gal of 500 ppm from 5,000 ppm, dilute aqueous.
  const Dilution weak = dilute(gallons(5), 500e-6, g_per_ml(1), 5000e-6, g_per_ml(1)).value();
  CHECK(weak.concentrate.value_in(unit::us_gallon) == Approx(0.5).epsilon(tight));
  CHECK(weak.naive_concentrate / weak.concentrate == Approx(1).epsilon(tight));
}

TEST_CASE("a gallon of water is brought to 200 mg/L of available chlorine", "[dose]") {
  // Computed independently, from trade 12.5: 200 mg/L against 125 g/L, with the dose inside and on top of the
  // gallon.
  const LiquidDensity mix = g_per_ml(1), bleach = g_per_ml(1.16);
  const double target = 0.2 / 1000;
  const double strength = hypochlorite_strength(12.5, bleach).value().available_chlorine_fraction;
  const auto bleach_for = [&](LiquidVolume make) {
    return in_ml(dilute(make, target, mix, strength, bleach).value().concentrate);
  };
  CHECK(bleach_for(gallons(1)) == Approx(6.05665885440).epsilon(tight));
  CHECK(bleach_for(gallons(1) + ml(6.06636503846)) == Approx(6.06636503846).epsilon(tight));
}

TEST_CASE("a concentrate may be used as it is", "[dose]") {
  const Dilution neat = dilute(ml(500), 0.2, g_per_ml(1.1), 0.2, g_per_ml(1.1)).value();
  CHECK(in_ml(neat.concentrate) == Approx(500).epsilon(tight));
  CHECK(grams(neat.diluent_mass) == Approx(0).margin(1e-9));
}

TEST_CASE("chlorite yields at most 0.597 g of chlorine dioxide a gram by the acid route", "[dose]") {
  // Computed independently from standard atomic weights (from memory): 4 ClO2 for 5 NaClO2, and what follows
  // for the chlorite that a gram of gas takes, pure and as 80 % flake.
  const double yield = chlorite_acid_yield();
  CHECK(yield == Approx(0.596635680309).epsilon(tight));
  CHECK(1 / yield == Approx(1.67606469577).epsilon(tight));
  CHECK(1 / yield / 0.8 == Approx(2.09508086971).epsilon(tight));
  // SUEZ, Degremont water handbook, "chlorine dioxide: preparation": the acid route takes 1.25 times the
  // chlorite of the chlorine route, which yields 0.745794600386 (computed independently).
  CHECK(1.25 * yield == Approx(0.745794600386).epsilon(tight));
  // Computed independently: 4 fl oz of 2 % chlorite (1.013 g/mL) in a gallon, all of it converted.
  const double freed = grams(LiquidVolume(4, unit::us_fluid_ounce) * g_per_ml(1.013)) * 0.02 * yield;
  CHECK(freed == Approx(1.42992024222).epsilon(tight));
}

TEST_CASE("trade per cent of hypochlorite turns into mass fractions", "[dose]") {
  struct Case {
    double trade, density, available, sodium_hypochlorite;
  };
  // Computed independently; agree with the published industry figures 10.8, 12.5 / 13.12, 8.8 and 5.71 / 6 per
  // cent (hypochlorite producers' literature, user-mjooq7g.cld.bz/Industrial-Literature/57).
  const Case cases[] = {
      {12.5, 1.16, 0.107758620690, 0.113137081854},   {15, 1.20, 0.125, 0.131239014951},
      {10, 1.14, 0.0877192982456, 0.0920975543513},   {6.17194513617, 1.08, 0.0571476401497, 0.06},
      {7.85780052058, 1.00, 0.0785780052058, 0.0825}, {5.00041851310, 1.00, 0.0500041851310, 0.0525}};
  for (const Case& c : cases) {
    INFO("trade " << c.trade);
    const HypochloriteStrength strength = hypochlorite_strength(c.trade, g_per_ml(c.density)).value();
    CHECK(strength.available_chlorine_fraction == Approx(c.available).epsilon(tight));
    CHECK(strength.sodium_hypochlorite_fraction == Approx(c.sodium_hypochlorite).epsilon(tight));
  }
}

TEST_CASE("a dilution that cannot be made is refused", "[dose]") {
  const LiquidDensity water = g_per_ml(1);
  check_refused(dilute(ml(1000), 0.4, water, 0.35, water), ErrorCode::out_of_range,
                "A mix of 40 % cannot be made from a concentrate of 35 %.", "strength of the mix",
                "Use a stronger concentrate, or check which figure belongs to which.");
  const std::string strength_hint = "Give the strength as % by mass from the label or data sheet.";
  check_refused(dilute(ml(1000), 0, water, 0.35, water), ErrorCode::out_of_range,
                "A mass fraction of 0 is not above 0 and up to 1.", "strength of the mix", strength_hint);
  check_refused(dilute(ml(1000), 0.1, water, 1.5, water), ErrorCode::out_of_range,
                "A mass fraction of 1.5 is not above 0 and up to 1.", "strength of the concentrate",
                strength_hint);
  check_refused(dilute(ml(0), 0.1, water, 0.35, water), ErrorCode::out_of_range,
                "The volume to make is not above zero.", "volume to make", "Give how much mix the jobs need.");
  for (const auto& [mix, concentrate] : {std::pair{g_per_ml(0), water}, std::pair{water, g_per_ml(-1)}})
    check_refused(dilute(ml(1000), 0.1, mix, 0.35, concentrate), ErrorCode::out_of_range,
                  "A density is not above zero.", "density",
                  "Give the densities from section 9 of the data sheets.");
  CHECK_FALSE(dilute(ml(1000), std::numeric_limits<double>::quiet_NaN(), water, 0.35, water).has_value());
}

TEST_CASE("a strength that no hypochlorite has is refused", "[dose]") {
  check_refused(hypochlorite_strength(0, g_per_ml(1.1)), ErrorCode::out_of_range,
                "A trade strength of 0 % is not above 0 and up to 30.", "trade per cent",
                "Give grams of available chlorine per litre divided by 10, from the data sheet.");
  CHECK_FALSE(hypochlorite_strength(31, g_per_ml(1.1)).has_value());
  check_refused(hypochlorite_strength(12.5, g_per_ml(11.6)), ErrorCode::out_of_range,
                "A density of 11.6 g/mL is not that of a hypochlorite solution (0.9 to 1.5).", "density",
                "Give the density from section 9 of the data sheet.");
}
