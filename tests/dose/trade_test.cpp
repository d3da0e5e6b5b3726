// SPDX-License-Identifier: Apache-2.0
// What the trade does: common practice, no source.
#include <catch2/catch.hpp>

#include "dose/houses.hpp"

using namespace fogwright;
using namespace fogwright::testing;

TEST_CASE("2,400 sq ft over three returns is 108 to 144 s, 36 to 48 s each", "[dose]") {
  const SystemDose dose = dose_system(house(2400, 3), {}, {}, SplitRule::equal).value();
  CHECK(dose.band == SecondsBand{108, 144});
  CHECK(dose.target_seconds == 126);
  for (const ReturnDose& r : dose.returns) {
    CHECK(r.band == SecondsBand{36, 48});
    CHECK(r.seconds == 42);
  }
  CHECK_FALSE(dose.short_share);
}

TEST_CASE("a gallon over 10 to 12 jobs is 10.7 to 12.8 fl oz a job", "[dose]") {
  const Calibration rule = gallon_rule();
  CHECK(rule.basis == Basis::estimated);
  CHECK(rule.high == rule.flow);
  const FogVolume job = fog_volume(rule, 126, 126);
  CHECK(job.low.value_in(unit::us_fluid_ounce) == Approx(128.0 / 12).epsilon(1e-12));
  CHECK(show(job.low, UnitSystem::us_customary) == "10.7 fl oz");
  CHECK(show(job.target, UnitSystem::us_customary) == "12.8 fl oz");
  CHECK(job.high == job.target);
}

TEST_CASE("a third to half a gallon is 2.8 to 4.2 lb of water, and more is above the usual fill", "[dose]") {
  const auto filled = [](double volume) {
    const std::vector<LiquidVolume> jobs{gallons(volume)};
    return route_load(jobs, 0, g_per_ml(1), {}).value();
  };
  CHECK(show(filled(1.0 / 3).liquid_mass, UnitSystem::us_customary) == "2.78 lb");
  CHECK(show(filled(0.5).liquid_mass, UnitSystem::us_customary) == "4.17 lb");
  CHECK_FALSE(filled(0.5).above_usual_fill);
  CHECK(filled(0.51).above_usual_fill);
}
