// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <set>

#include "air/house.hpp"
#include "label/values.hpp"
#include "table_file.hpp"

using namespace house;

namespace {

double governs(const Active& active, LimitKind kind, std::span<const EnteredLimit> entered = {}) {
  const auto limit = governing_limit(active, kind, entered);
  return limit ? limit->value.value_in(mg_per_m3) : -1;
}

std::string governs_by(const Active& active, LimitKind kind, std::span<const EnteredLimit> entered = {}) {
  return std::string{governing_limit(active, kind, entered).value().authority};
}

}  // namespace

TEST_CASE("mg/m3 for 1 ppm as the NIOSH Pocket Guide prints it") {
  const auto rows = testing::word_rows("niosh_conversions.txt");
  REQUIRE(rows.size() == 7);
  for (const auto& row : rows) {
    CAPTURE(row);
    const auto* substance = find_substance(row[1]);
    REQUIRE(substance != nullptr);
    // The guide rounds to three digits, and prints 1.89 for ethanol where 46.07 / 24.45 is 1.884.
    CHECK(mg_per_m3_from_ppm(1, substance->molar_mass) == Approx(std::stod(row[2])).epsilon(0.004));
  }
}

TEST_CASE("ppm and mg/m3 (computed independently with the exact molar volume of 24.4654 L)") {
  const Temperature t = Temperature::celsius(25);
  const Pressure p{1, unit::atmosphere};
  const auto mg_of_one_ppm = [&](double molar_mass) { return 1 / meter_ppm(1, molar_mass, t, p); };
  CHECK(mg_of_one_ppm(67.448) == Approx(2.75687255503).epsilon(1e-10));
  CHECK(mg_of_one_ppm(34.014) == Approx(1.39028975042).epsilon(1e-10));
  CHECK(mg_of_one_ppm(47.997) == Approx(1.96183151500).epsilon(1e-10));
  CHECK(mg_of_one_ppm(46.069) == Approx(1.88302635716).epsilon(1e-10));
  CHECK(mg_of_one_ppm(60.096) == Approx(2.45636657969).epsilon(1e-10));
  CHECK(mg_of_one_ppm(70.90) == Approx(2.89796975672).epsilon(1e-10));
  CHECK(meter_ppm(1, 67.448, Temperature::celsius(20), Pressure{84556, unit::pascal}) ==
        Approx(0.427376440090).epsilon(1e-10));
  CHECK(ppm_from_mg_per_m3(mg_per_m3_from_ppm(0.1, 67.448), 67.448) == Approx(0.1).epsilon(1e-14));
}

TEST_CASE("the mixture rule and the 8 h average of 29 CFR 1910.1000(d)") {
  // The first two are the regulation's own examples; the third is that of potentcompoundsafety.com (2011/09).
  CHECK(mixture_index(std::vector{500.0, 45.0, 40.0}, std::vector{1000.0, 200.0, 200.0}) == Approx(0.925));
  CHECK(eight_hour_average(std::vector{150.0, 75.0, 50.0}, std::vector{2.0, 2.0, 4.0}) == Approx(81.25));
  CHECK(mixture_index(std::vector{150.0, 300.0}, std::vector{200.0, 400.0}) == Approx(1.5));
}

TEST_CASE("every shipped value has its authority, source and day, and no ACGIH value is shipped") {
  std::set<std::string_view> seen;
  for (const Substance& substance : shipped_substances()) {
    CAPTURE(substance.name);
    CHECK(seen.insert(substance.cas).second);
    CHECK(profile::is_cas_number(substance.cas));
    CHECK(substance.molar_mass > 10);
    CHECK_FALSE(substance.cartridge_source.empty());
    CHECK((substance.advice == CartridgeAdvice::published) == !substance.cartridge.empty());
    for (const LimitRow& row : substance.limits) {
      CHECK_FALSE(row.authority.empty());
      CHECK_FALSE(row.source.empty());
      CHECK((row.read_on == "from memory" || profile::is_calendar_date(row.read_on)));
      CHECK(row.authority.find("ACGIH") == std::string_view::npos);
      CHECK((row.ppm || row.mg_per_m3));
      // The mg/m3 column is rounded (NIOSH prints 27 for 35 ppm of ammonia, 24.4), or a digit has slipped.
      if (row.ppm && row.mg_per_m3)
        CHECK(*row.mg_per_m3 == Approx(mg_per_m3_from_ppm(*row.ppm, substance.molar_mass)).epsilon(0.12));
    }
  }
  CHECK(seen.size() == 15);
  CHECK(find_substance("50-99-7") == nullptr);
}

// NIOSH Pocket Guide: hydrogen peroxide from memory, ethanol read.
TEST_CASE("hydrogen peroxide asks for supplied air, and so does ethanol (NIOSH lists no cartridge)") {
  CHECK(find_substance(peroxide)->advice == CartridgeAdvice::supplied_air_only);
  CHECK(find_substance(ethanol)->advice == CartridgeAdvice::supplied_air_only);
  CHECK(find_substance(chlorine_dioxide)->cartridge == "chlorine dioxide");
}

TEST_CASE("ppm controls, and the smaller of the two columns is used") {
  // 0.1 ppm is 0.276 mg/m3; the column prints 0.3.
  CHECK(governs(vapour(chlorine_dioxide, 1), LimitKind::eight_hour) == Approx(0.1 * 67.448 / 24.45));
  // 1000 ppm of ethanol is 1884 mg/m3; the column prints 1900.
  CHECK(governs(vapour(ethanol, 1), LimitKind::eight_hour) == Approx(1000 * 46.069 / 24.45));
  // 0.5 ppm of chlorine is 1.4499 mg/m3; NIOSH prints 1.45, and OSHA's ceiling is higher.
  CHECK(governs(vapour("7782-50-5", 1), LimitKind::ceiling) == Approx(0.5 * 70.90 / 24.45));
  CHECK(governs_by(vapour("7782-50-5", 1), LimitKind::ceiling) == "NIOSH REL");
  // 0.2 ppm of glutaraldehyde is 0.819 mg/m3; the column prints 0.8 and is the smaller.
  CHECK(governs(vapour("111-30-8", 1), LimitKind::ceiling) == Approx(0.8));
}

TEST_CASE("the lowest of shipped, entered and printed values governs") {
  const Active active = vapour(chlorine_dioxide, 1);
  CHECK(governs(active, LimitKind::ceiling) == -1);
  const EnteredLimit entered[] = {
      {chlorine_dioxide, LimitKind::ceiling, 0.1, {}, "a licensed booklet", "2026-01-01"},
      {chlorine_dioxide, LimitKind::eight_hour, 0.5, {}, "a higher one", "2026-01-01"},
      {peroxide, LimitKind::ceiling, 0.001, {}, "of another substance", "2026-01-01"},
  };
  CHECK(governs(active, LimitKind::ceiling, entered) == Approx(0.1 * 67.448 / 24.45));
  CHECK(governs_by(active, LimitKind::ceiling, entered) == "entered");
  CHECK(governing_limit(active, LimitKind::ceiling, entered)->source == "a licensed booklet");
  CHECK(governs(active, LimitKind::eight_hour, entered) == Approx(0.1 * 67.448 / 24.45));

  Active printed = active;
  printed.eight_hour = PrintedLimit{{}, MassConcentration{0.2, mg_per_m3}};
  CHECK(governs(printed, LimitKind::eight_hour, entered) == Approx(0.2));
  CHECK(governs_by(printed, LimitKind::eight_hour, entered) == "label");
}

TEST_CASE("what is given off decides, not what is in the bottle") {
  Active chlorite = vapour("7758-19-2", 0.02);
  CHECK(governs(chlorite, LimitKind::eight_hour) == -1);
  chlorite.released_cas = chlorine_dioxide;
  CHECK(governs(chlorite, LimitKind::eight_hour) == Approx(0.1 * 67.448 / 24.45));
}

TEST_CASE("a limit in ppm alone says nothing without a molar mass") {
  Active unknown = vapour("50-99-7", 0.02);
  unknown.eight_hour = PrintedLimit{1.0, {}};
  CHECK(governs(unknown, LimitKind::eight_hour) == -1);
  unknown.eight_hour->concentration = MassConcentration{3, mg_per_m3};
  CHECK(governs(unknown, LimitKind::eight_hour) == Approx(3));
}
