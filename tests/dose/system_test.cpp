// SPDX-License-Identifier: Apache-2.0
#include <rapidcheck.h>

#include <catch2/catch.hpp>
#include <numeric>

#include "dose/houses.hpp"

using namespace fogwright;
using namespace fogwright::testing;
using Point = RateChoice::Point;

namespace {

const RateBand usual;
const RateChoice middle;
constexpr int smallest_house = 50;  // sq ft; below, 45 to 60 s per 1,000 sq ft may hold no whole second

SystemDose dose_of(const AirSystem& system, RateChoice choice = {}, RateBand band = {}) {
  return dose_system(system, band, choice, SplitRule::equal).value();
}

rc::Gen<AirSystem> any_house() {
  return rc::gen::exec([] {
    AirSystem system =
        house(*rc::gen::inRange(smallest_house, 200'000), *rc::gen::inRange<std::size_t>(1, 201));
    for (ReturnIntake& r : system.returns) {
      r.face = square_inches(*rc::gen::inRange(1, 2000));
      r.airflow = cfm(*rc::gen::inRange(1, 4000));
    }
    return system;
  });
}

rc::Gen<SplitRule> any_rule() {
  return rc::gen::element(SplitRule::equal, SplitRule::face_area, SplitRule::airflow);
}

rc::Gen<RateChoice> any_choice() {
  return rc::gen::element(RateChoice{Point::low, 0}, RateChoice{}, RateChoice{Point::high, 0},
                          RateChoice{Point::exact, 45}, RateChoice{Point::exact, 51.3},
                          RateChoice{Point::exact, 60});
}

}  // namespace

TEST_CASE("a label that is silent leaves the common practice, and says so", "[dose]") {
  Label label;
  CHECK(rate_band(label).low == 45);
  CHECK(rate_band(label).high == 60);
  CHECK(rate_band(label).basis == Basis::common_practice);
  label.rate = DirectedRate{30, 40};
  CHECK(rate_band(label).low == 30);
  CHECK(rate_band(label).high == 40);
  CHECK(rate_band(label).basis == Basis::label);
}

TEST_CASE("the band is rounded inwards to whole seconds", "[dose]") {
  // 1,230 sq ft: 55.35 to 73.8 s.
  CHECK(dose_of(house(1230, 2)).band == SecondsBand{56, 73});
  // 2,000 sq ft: exactly 90 to 120 s, however the area was typed.
  CHECK(dose_of(house(2000, 2)).band == SecondsBand{90, 120});
  AirSystem metric = house(0, 2);
  metric.area = FloorArea(2000 * 0.09290304, unit::square_metre);
  CHECK(dose_of(metric).band == SecondsBand{90, 120});
}

TEST_CASE("the target is where the rate says, inside the band", "[dose]") {
  const AirSystem system = house(1230, 2);
  CHECK(dose_of(system, {Point::low, 0}).target_seconds == 56);
  CHECK(dose_of(system).target_seconds == 64);  // 64.575, rounded down
  CHECK(dose_of(system, {Point::high, 0}).target_seconds == 73);
  CHECK(dose_of(system, {Point::exact, 50}).target_seconds == 62);    // 61.5
  CHECK(dose_of(system, {Point::exact, 49.9}).target_seconds == 61);  // 61.377
  CHECK(dose_of(system, {Point::exact, 45}).target_seconds == 56);    // 55.35, below the band's first second
  CHECK(dose_of(system, {Point::exact, 60}).target_seconds == 73);    // 73.8, above its last
}

TEST_CASE("a label with a single rate is never exceeded", "[dose]") {
  const RateBand single{60, 60, Basis::label};
  const SystemDose dose = dose_of(house(2430, 3), middle, single);  // 145.8 s
  CHECK(dose.band == SecondsBand{145, 145});
  CHECK(dose.target_seconds == 145);
  CHECK(seconds_of(dose) == std::vector<std::int64_t>{49, 48, 48});
}

TEST_CASE("time is split by face area or by airflow", "[dose]") {
  AirSystem system = house(2000, 3);  // 105 s at the middle
  const double areas[] = {400, 280, 144}, flows[] = {700, 400, 100};
  for (std::size_t i = 0; i < 3; ++i) {
    system.returns[i].face = square_inches(areas[i]);
    system.returns[i].airflow = cfm(flows[i]);
  }
  // 105 x 400/824 = 50.97, 35.68, 18.35; 105 x 700/1200 = 61.25, 35, 8.75.
  CHECK(seconds_of(dose_system(system, usual, middle, SplitRule::face_area).value()) ==
        std::vector<std::int64_t>{51, 36, 18});
  CHECK(seconds_of(dose_system(system, usual, middle, SplitRule::airflow).value()) ==
        std::vector<std::int64_t>{61, 35, 9});
  CHECK(split_rule_name(SplitRule::equal) == "equal");
  CHECK(split_rule_name(SplitRule::face_area) == "face");
  CHECK(split_rule_name(SplitRule::airflow) == "airflow");
}

TEST_CASE("a share too short to work the valve is marked", "[dose]") {
  const AirSystem system = house(1000, 10);  // 52 s: 6, 6, 5 ...
  CHECK_FALSE(dose_of(system).short_share);
  CHECK(dose_of(house(1000, 11)).short_share);  // 52 s: the last gets 4
  CHECK(
      dose_system(system, usual, middle, SplitRule::equal, {.shortest_share_seconds = 6}).value().short_share);
}

TEST_CASE("a share that the Alabama paradox takes a second from stays in its return's band", "[dose]") {
  // The published six parties: 25 to 26 seconds take a second from the fourth and the fifth.
  AirSystem system = house(1000, 6);
  const double areas[] = {1500, 1500, 900, 500, 500, 200};
  for (std::size_t i = 0; i < 6; ++i) system.returns[i].face = square_inches(areas[i]);
  const SystemDose dose =
      dose_system(system, {25, 30, Basis::label}, {Point::exact, 26}, SplitRule::face_area).value();
  CHECK(seconds_of(dose) == std::vector<std::int64_t>{8, 8, 5, 2, 2, 1});
  CHECK(dose.returns[3].band.low == 2);  // its share of 25 s is 3
  CHECK(dose.returns[0].band.low == 7);
}

TEST_CASE("what each return gets sums to the target and stays in the bands", "[dose][property]") {
  CHECK(rc::check([] {
    const AirSystem system = *any_house();
    const auto rule = *any_rule();
    const auto result = dose_system(system, usual, *any_choice(), rule);
    RC_ASSERT(result.has_value());
    const auto seconds = seconds_of(*result);
    RC_ASSERT(std::accumulate(seconds.begin(), seconds.end(), std::int64_t{0}) == result->target_seconds);
    RC_ASSERT(result->band.low <= result->target_seconds);
    RC_ASSERT(result->target_seconds <= result->band.high);

    double weights = 0;
    const auto weight = [&](std::size_t i) {
      const ReturnIntake& r = system.returns[i];
      return rule == SplitRule::equal ? 1.0 : rule == SplitRule::face_area ? r.face->si() : r.airflow->si();
    };
    for (std::size_t i = 0; i < seconds.size(); ++i) weights += weight(i);
    for (std::size_t i = 0; i < seconds.size(); ++i) {
      const ReturnDose& r = result->returns[i];
      RC_ASSERT(r.name == system.returns[i].name);
      RC_ASSERT(r.band.low <= r.seconds);
      RC_ASSERT(r.seconds <= r.band.high);
      const auto exact = [&](std::int64_t total) { return static_cast<double>(total) * weight(i) / weights; };
      const double noise = 0.01;  // of a weight in whole units
      RC_ASSERT(std::abs(static_cast<double>(r.seconds) - exact(result->target_seconds)) < 1 + noise);
      RC_ASSERT(std::abs(static_cast<double>(r.band.low) - exact(result->band.low)) < 1 + noise);
      RC_ASSERT(std::abs(static_cast<double>(r.band.high) - exact(result->band.high)) < 1 + noise);
    }
  }));
}

TEST_CASE("more area never means less time", "[dose][property]") {
  CHECK(rc::check([] {
    const auto choice = *any_choice();
    const double area = *rc::gen::inRange(smallest_house, 190'000);
    const double more = area + *rc::gen::inRange(0, 10'000) / 100.0;
    const auto less = dose_of(house(area, 3), choice);
    const auto greater = dose_of(house(more, 3), choice);
    RC_ASSERT(greater.target_seconds >= less.target_seconds);
    RC_ASSERT(greater.band.low >= less.band.low);
    RC_ASSERT(greater.band.high >= less.band.high);
  }));
}
