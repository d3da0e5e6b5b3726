// SPDX-License-Identifier: Apache-2.0
#include <rapidcheck.h>

#include <catch2/catch.hpp>
#include <limits>

#include "dose/houses.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

constexpr LiquidDensity water(1, unit::gram_per_millilitre);
Fogger with_tank(LiquidVolume tank) { return {tank, {}, {}}; }
Mass kg(double value) { return {value, unit::kilogram}; }

Result<RouteLoad> load(std::vector<LiquidVolume> jobs, double reserve = 0, Fogger fogger = {},
                       LiquidDensity density = water) {
  return route_load(jobs, reserve, density, fogger);
}

}  // namespace

TEST_CASE("the load is the sum of the jobs and the reserve, rounded up", "[dose]") {
  const RouteLoad one = load({ml(400), ml(350), ml(250)}, 0.1).value();
  CHECK(one.needed.value_in(unit::millilitre) == Approx(1100).epsilon(1e-12));
  CHECK(one.needed_microlitres == 1'100'000);  // the noise of 1.1 adds nothing
  CHECK(one.fills == 1);
  CHECK(one.fill == one.needed);
  CHECK(one.liquid_mass.si() == Approx(1.1).epsilon(1e-12));
  CHECK(load({ml(0.0004)}).value().needed_microlitres == 1);
}

TEST_CASE("a tank that is too small is filled again", "[dose]") {
  const std::vector<LiquidVolume> jobs{ml(500), ml(500)};
  const auto fills = [&](double tank) { return load(jobs, 0, with_tank(ml(tank))).value().fills; };
  CHECK(fills(1200) == 1);
  CHECK(fills(1000) == 1);
  CHECK(fills(999) == 2);
  CHECK(fills(500) == 2);
  CHECK(fills(300) == 4);
  CHECK(load(jobs, 0, with_tank(ml(300))).value().liquid_mass.si() == Approx(0.3).epsilon(1e-12));
  CHECK(load(jobs, 0, with_tank(ml(1200))).value().liquid_mass.si() == Approx(1.0).epsilon(1e-12));
}

TEST_CASE("the weight a person carries can be less than the tank", "[dose]") {
  const Fogger fogger{ml(4000), kg(4), kg(5.5)};
  const RouteLoad dense = load({ml(3000)}, 0, fogger, g_per_ml(1.2)).value();
  CHECK(dense.fill.value_in(unit::millilitre) == Approx(1250).epsilon(1e-12));
  CHECK(dense.fills == 3);
  CHECK(dense.liquid_mass.si() == Approx(1.5).epsilon(1e-12));
  const RouteLoad no_tank = load({ml(3000)}, 0, {{}, kg(4), kg(5.5)}).value();
  CHECK(no_tank.fills == 2);
}

TEST_CASE("a load that makes no sense is refused", "[dose]") {
  check_refused(load({}), ErrorCode::missing_value, "There is no job to load for.", "jobs",
                "Give the volume of at least one job.");
  for (double reserve : {-0.1, 1.1})
    check_refused(load({ml(1)}, reserve), ErrorCode::out_of_range,
                  "A reserve of " + show_number(reserve, 4) + " is not between 0 and 1.", "reserve",
                  "Give it as a fraction of the load, such as 0.1.");
  for (double volume : {0.0, -5.0, std::numeric_limits<double>::infinity()})
    check_refused(load({ml(1), ml(volume)}), ErrorCode::out_of_range,
                  "The volume of job 2 is not above zero and up to 1,000 m3.", "job 2",
                  "Plan this job again, or leave it out.");
  check_refused(load({ml(1)}, 0, {}, g_per_ml(0)), ErrorCode::out_of_range,
                "The density of the product is not above zero.", "density",
                "Correct the density in the product profile.");
}

TEST_CASE("a fogger that can hold or carry nothing is refused", "[dose]") {
  check_refused(load({ml(1)}, 0, with_tank(ml(0))), ErrorCode::out_of_range,
                "The tank's capacity is not above zero and up to 1,000 m3.", "fogger: tank",
                "Read it off the tank, or leave it out.");
  check_refused(load({ml(1)}, 0, {{}, {}, kg(5)}), ErrorCode::missing_value,
                "A carry limit needs the mass of the empty fogger.", "fogger: empty mass",
                "Weigh the empty fogger, or leave out the carry limit.");
  check_refused(load({ml(1)}, 0, {{}, kg(5), kg(5)}), ErrorCode::out_of_range,
                "The carry limit of 5 kg leaves nothing above the empty fogger's 5 kg.", "fogger: carry limit",
                "Check both, or use a lighter fogger.");
  check_refused(load({ml(5000)}, 0, with_tank(ml(1))), ErrorCode::out_of_range,
                "The load takes more than 1000 fills.", "fogger: tank",
                "Check the tank, the carry limit and the volumes.");
}

TEST_CASE("the fills always hold the load, and one less would not", "[dose][property]") {
  CHECK(rc::check([] {
    const auto volumes = *rc::gen::nonEmpty(rc::gen::container<std::vector<int>>(rc::gen::inRange(1, 2000)));
    const auto tank = *rc::gen::inRange<std::int64_t>(500, 8000);
    std::vector<LiquidVolume> jobs;
    for (int volume : volumes) jobs.push_back(ml(volume));
    const auto result = load(jobs, 0.1, with_tank(ml(static_cast<double>(tank))));
    RC_PRE(result.has_value());
    RC_ASSERT(result->fills * tank * 1000 >= result->needed_microlitres - 1);
    RC_ASSERT((result->fills - 1) * tank * 1000 < result->needed_microlitres);
  }));
}
