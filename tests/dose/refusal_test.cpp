// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <limits>

#include "dose/houses.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

const std::string measure = "Measure the conditioned floor area this system serves, in sq ft or m2.";
constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

Result<SystemDose> plan(const AirSystem& system, SplitRule split = SplitRule::equal) {
  return dose_system(system, {}, {}, split);
}

Result<SystemDose> plan_at(double rate) {
  return dose_system(house(2400, 3), {}, {RateChoice::Point::exact, rate}, SplitRule::equal);
}

void check_area_refused(double square_feet, const std::string& problem, const std::string& hint) {
  check_refused(plan(house(square_feet, 3)), ErrorCode::out_of_range,
                "The floor area of system \"downstairs\" is " + problem + ".", "system \"downstairs\": area",
                hint);
}

}  // namespace

TEST_CASE("an area of zero, a negative one or none at all is refused", "[dose]") {
  check_area_refused(0, "0 sq ft", measure);
  check_area_refused(-120, "-120 sq ft", measure);
  for (double none : {infinity, -infinity, not_a_number})
    check_area_refused(none, "not a finite number", measure);
}

TEST_CASE("an absurd area is refused unless it is allowed", "[dose]") {
  check_area_refused(200'001, "200,001 sq ft, more than 200,000 sq ft",
                     "Check the figure. If one system really serves that much, allow it (--large).");
  CHECK(plan(house(200'000, 3)).has_value());
  CHECK(dose_system(house(200'001, 3), {}, {}, SplitRule::equal, {.large = true}).has_value());
  check_refused(dose_system(house(1e18, 3), {}, {}, SplitRule::equal, {.large = true}), ErrorCode::out_of_range,
                "The floor area of system \"downstairs\" is so large that its seconds cannot be counted.",
                "system \"downstairs\": area", "Check the area and the directed rate.");
}

TEST_CASE("an area too small for a whole second is refused", "[dose]") {
  check_area_refused(10, "10 sq ft, for which the band is 0.45 to 0.6 s: no whole second",
                     "Check the area, or plan these rooms as part of the system they belong to.");
  CHECK(dose_system(house(930, 1), {59.5, 60, Basis::label}, {}, SplitRule::equal).error().code ==
        ErrorCode::out_of_range);  // 55.3 to 55.8 s
}

TEST_CASE("no return, and more than 200 of them, are refused", "[dose]") {
  for (std::size_t count : {std::size_t{0}, std::size_t{201}})
    check_refused(
        plan(house(2400, count)), ErrorCode::out_of_range,
        "There are " + std::to_string(count) + " returns in system \"downstairs\"; a plan takes 1 to 200.",
        "system \"downstairs\": returns", "Count the return grilles of this system and list each.");
  CHECK(plan(house(24000, 200)).has_value());
}

TEST_CASE("a rate outside the band is refused", "[dose]") {
  check_refused(
      plan_at(60.5), ErrorCode::rate_outside_band,
      "A rate of 60.5 s per 1,000 sq ft is outside the band of 45 to 60 s per 1,000 sq ft (common practice).",
      "rate", "Give 45 to 60, or low, middle or high.");
  for (double rate : {44.9, 0.0, -50.0, infinity, not_a_number})
    CHECK(plan_at(rate).error().code == ErrorCode::rate_outside_band);
  CHECK(plan_at(45).has_value());
  CHECK(plan_at(60).has_value());
}

TEST_CASE("a band that no one can follow is refused", "[dose]") {
  for (const RateBand& band : {RateBand{0, 60}, RateBand{60, 45}, RateBand{-1, 60}, RateBand{45, infinity},
                               RateBand{not_a_number, 60}, RateBand{45, not_a_number}}) {
    const auto refused = dose_system(house(2400, 3), band, {}, SplitRule::equal);
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().code == ErrorCode::out_of_range);
    CHECK(refused.error().where == "rate band");
    CHECK(refused.error().hint ==
          "Correct the directed rate of the product profile: above zero, low before high.");
  }
}

TEST_CASE("splitting by what was not measured at every return is refused", "[dose]") {
  AirSystem system = house(2400, 3);
  system.returns[0].face = square_inches(600);
  system.returns[2].face = square_inches(400);
  check_refused(plan(system, SplitRule::face_area), ErrorCode::missing_value,
                "Splitting by face area needs the face area of every return; return \"return 2\" of system "
                "\"downstairs\" has none.",
                "return \"return 2\" of system \"downstairs\": face area",
                "Measure it and give it as 20x30 in or 600 sq in, or split equally.");
  check_refused(
      plan(system, SplitRule::airflow), ErrorCode::missing_value,
      "Splitting by airflow needs the airflow of every return; return \"return 1\" of system \"downstairs\" "
      "has none.",
      "return \"return 1\" of system \"downstairs\": airflow",
      "Measure it and give it in cfm or m3/h, or split equally.");
  CHECK(plan(system).has_value());
}

TEST_CASE("a face area or airflow of nothing, or an absurd one, is refused", "[dose]") {
  AirSystem system = house(2400, 2);
  for (ReturnIntake& r : system.returns) r = {"", square_inches(600), cfm(400)};
  CHECK(plan(system, SplitRule::face_area).has_value());
  for (double nothing : {0.0, -20.0, not_a_number}) {
    system.returns[1].face = square_inches(nothing);
    check_refused(
        plan(system, SplitRule::face_area), ErrorCode::out_of_range,
        "The face area of return 2 of system \"downstairs\" is not above zero, so it would get no time.",
        "return 2 of system \"downstairs\": face area",
        "Measure it and give it as 20x30 in or 600 sq in, or split equally.");
  }
  system.returns[1].airflow = cfm(1e6);
  check_refused(plan(system, SplitRule::airflow), ErrorCode::out_of_range,
                "The airflow of return 2 of system \"downstairs\" is absurdly large.",
                "return 2 of system \"downstairs\": airflow",
                "Measure it and give it in cfm or m3/h, or split equally.");
}

TEST_CASE("a system without a name is still pointed at", "[dose]") {
  AirSystem system = house(0, 1);
  system.name.clear();
  CHECK(plan(system).error().message == "The floor area of the air system is 0 sq ft.");
}
