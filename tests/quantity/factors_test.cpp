// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <set>

#include "fogwright/quantity.hpp"
#include "table_file.hpp"

using namespace fogwright;
using testing::Row;

namespace {

// Within so many units in the last place of a double.
constexpr bool near(double a, double exact, int ulps = 1) {
  const double most = ulps * exact * std::numeric_limits<double>::epsilon();
  return a - exact <= most && exact - a <= most;
}

// NIST SP 811 (2008), Appendix B.8, its footnotes 13 and 22, and NIST Handbook 44, Appendix C (231 cubic inches
// a gallon, 128 fluid ounces a gallon): exact by definition.
static_assert(near(unit::us_gallon.in_si, 3.785411784e-3));
static_assert(near(unit::us_quart.in_si, 0.946352946e-3));
static_assert(near(unit::us_pint.in_si, 0.473176473e-3));
static_assert(near(unit::us_fluid_ounce.in_si, 29.5735295625e-6));
static_assert(near(unit::imperial_gallon.in_si, 4.54609e-3));
static_assert(near(unit::square_foot.in_si, 0.09290304));
static_assert(near(unit::square_inch.in_si, 6.4516e-4));
static_assert(near(unit::cubic_foot.in_si, 0.028316846592));
static_assert(unit::pound.in_si == 0.45359237);
static_assert(near(unit::ounce.in_si, 0.028349523125));
static_assert(near(unit::cubic_foot_per_minute.in_si, 4.719474432e-4, 2));  // a product and a quotient
static_assert(Temperature::fahrenheit(32).in_celsius() < 1e-12 &&
              Temperature::fahrenheit(32).in_celsius() > -1e-12);

// Our factor for a row of the table: the unit over the unit it is converted to.
struct OurFactor {
  std::string_view unit, to;
  double factor;
};

using namespace unit;
const OurFactor our_factors[] = {
    {"atmosphere, standard (atm)", "pascal (Pa)", atmosphere.in_si},
    {"cubic foot (ft3)", "cubic meter (m3)", cubic_foot.in_si},
    {"cubic foot per minute (ft3/min)", "cubic meter per second (m3/s)", cubic_foot_per_minute.in_si},
    {"cubic foot per minute (ft3/min)", "liter per second (L/s)",
     cubic_foot_per_minute.in_si / litre_per_second.in_si},
    {"day (d)", "second (s)", day.in_si},
    {"fluid ounce (U.S.) (fl oz)", "cubic meter (m3)", us_fluid_ounce.in_si},
    {"foot (ft)", "meter (m)", foot.in_si},
    {"gallon [Canadian and U.K. (Imperial)] (gal)", "cubic meter (m3)", imperial_gallon.in_si},
    {"gallon [Canadian and U.K. (Imperial)] (gal)", "liter (L)", imperial_gallon.in_si / litre.in_si},
    {"gallon (U.S.) (gal)", "cubic meter (m3)", us_gallon.in_si},
    {"gallon (U.S.) (gal)", "liter (L)", us_gallon.in_si / litre.in_si},
    {"hour (h)", "second (s)", hour.in_si},
    {"inch (in)", "meter (m)", inch.in_si},
    {"inch (in)", "centimeter (cm)", inch.in_si / centimetre.in_si},
    {"inch of mercury, conventional (inHg)", "pascal (Pa)", inch_of_mercury.in_si},
    {"liter (L)", "cubic meter (m3)", litre.in_si},
    {"micron", "meter (m)", micrometre.in_si},
    {"millibar (mbar)", "pascal (Pa)", hectopascal.in_si},
    {"millimeter of mercury, conventional (mmHg)", "pascal (Pa)", millimetre_of_mercury.in_si},
    {"minute (min)", "second (s)", minute.in_si},
    {"ounce (avoirdupois) (oz)", "kilogram (kg)", ounce.in_si},
    {"ounce (avoirdupois) (oz)", "gram (g)", ounce.in_si / gram.in_si},
    {"ounce (U.S. fluid) (fl oz)", "milliliter (mL)", us_fluid_ounce.in_si / millilitre.in_si},
    {"pint (U.S. liquid) (liq pt)", "liter (L)", us_pint.in_si / litre.in_si},
    {"pound (avoirdupois) (lb)", "kilogram (kg)", pound.in_si},
    {"pound per gallon (U.S.) (lb/gal)", "kilogram per cubic meter (kg/m3)", pound_per_us_gallon.in_si},
    {"quart (U.S. liquid) (liq qt)", "liter (L)", us_quart.in_si / litre.in_si},
    {"square foot (ft2)", "square meter (m2)", square_foot.in_si},
    {"square inch (in2)", "square meter (m2)", square_inch.in_si},
    {"square inch (in2)", "square centimeter (cm2)", square_inch.in_si / square_centimetre.in_si},
    {"torr (Torr)", "pascal (Pa)", read_pressure("1 torr", "").value().si()},
    {"year (365 days)", "second (s)", read_shelf_time("1 year", "").value().si()},
};

const OurFactor* our_factor(const Row& row) {
  for (const OurFactor& ours : our_factors)
    if (ours.unit == row[0] && ours.to == row[1]) return &ours;
  return nullptr;
}

struct Printed {
  double value, half_last_digit;
  bool exact;
};

// "2.831 685", "E-02", "rounded".
Printed printed(const Row& row) {
  std::string digits = row[2];
  digits.erase(std::remove(digits.begin(), digits.end(), ' '), digits.end());
  const auto decimals = static_cast<int>(digits.size() - digits.find('.') - 1);
  const int exponent = std::stoi(row[3].substr(1));
  return {std::stod(digits + row[3]), 0.5 * std::pow(10.0, exponent - decimals), row[4] == "exact"};
}

}  // namespace

TEST_CASE("every factor agrees with NIST SP 811 Appendix B.8 to the last digit printed there") {
  const auto rows = testing::table_rows("nist_sp811.txt", 5);
  std::set<const OurFactor*> checked;
  for (const Row& row : rows) {
    CAPTURE(row[0], row[1]);
    const OurFactor* ours = our_factor(row);
    REQUIRE(ours != nullptr);
    const Printed theirs = printed(row);
    CHECK((row[4] == "exact" || row[4] == "rounded"));
    CHECK(std::abs(ours->factor - theirs.value) <=
          (theirs.exact ? theirs.value * 4e-16 : theirs.half_last_digit));
    checked.insert(ours);
  }
  CHECK(checked.size() == std::size(our_factors));
  CHECK(rows.size() == std::size(our_factors));
}

// NIST SP 811 (2008), Appendix B.9: t/C = (t/F - 32) / 1.8, T/K = t/C + 273.15.
TEST_CASE("temperatures convert by the formulas of NIST SP 811 Appendix B.9") {
  for (const double f : {-459.67, -40.0, 0.0, 32.0, 70.0, 98.6, 212.0}) {
    CAPTURE(f);
    CHECK(Temperature::fahrenheit(f).in_celsius() == Approx((f - 32) / 1.8).margin(1e-12));
    CHECK(Temperature::fahrenheit(f).in_kelvin() == Approx((f - 32) / 1.8 + 273.15).margin(1e-12));
    CHECK(Temperature::celsius((f - 32) / 1.8).in_fahrenheit() == Approx(f).margin(1e-12));
  }
}
