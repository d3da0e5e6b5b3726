// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "air/house.hpp"

using namespace house;

namespace {

constexpr LiquidVolume litre{1, unit::litre};

Zone house_to_air(double from_hours) {
  Zone zone = bare_house();
  zone.airing_from = HoldTime{from_hours, unit::hour};
  return zone;
}

HoldTime model_time(Zone zone, const Label& label, AirChanges airing, LiquidVolume volume = litre) {
  zone.airing = airing;
  return air_after_fogging(zone, input_of(label, volume)).value().model_time;
}

/// Two actives, one of them still coming off wet surfaces.
Label mixed_label() {
  Label label = acid_chlorite_label(0.002);
  label.actives.push_back(vapour(acetic_acid, 0.005));
  return label;
}

}  // namespace

TEST_CASE("which airing-out makes the deadline: the closed form for one active at once") {
  const Label label = label_with({vapour(peroxide, 0.005)});
  const Zone zone = house_to_air(1);
  const auto need = airing_for_deadline(zone, input_of(label, litre), HoldTime{3, unit::hour}).value();
  const ActiveAir active = air_after_fogging(zone, input_of(label, litre))->actives[0];
  const double exact = (std::log(active.peak / *active.occupant) - 0.18) / 2;
  CHECK(need.air_changes.value_in(unit::per_hour) == Approx(exact).epsilon(2e-9));
  CHECK(need.airflow.value_in(unit::cubic_metre_per_hour) ==
        Approx(need.air_changes.value_in(unit::per_hour) * zone.gross.si()));
}

TEST_CASE("the airing-out that was found meets the deadline, and a little less does not") {
  for (const Label& label :
       {mixed_label(), acid_chlorite_label(0.01), label_with({vapour(ethanol, 0.3)}, 0.95)}) {
    for (const double deadline : {3.5, 4.0, 6.0, 20.0}) {
      CAPTURE(deadline);
      const Zone zone = house_to_air(1);
      const HoldTime wanted{deadline, unit::hour};
      const auto need = airing_for_deadline(zone, input_of(label, litre), wanted);
      REQUIRE(need);
      CHECK(model_time(zone, label, need->air_changes) <= wanted);
      if (need->air_changes.si() > 0) CHECK(model_time(zone, label, need->air_changes * (1 - 3e-9)) > wanted);
    }
  }
}

TEST_CASE("an airing-out that is not needed is zero") {
  const Label label = label_with({vapour(ethanol, 1e-6)});
  const auto need = airing_for_deadline(house_to_air(1), input_of(label, litre), HoldTime{3, unit::hour});
  CHECK(need.value().air_changes.si() == 0);
}

TEST_CASE("the largest dose for a deadline meets it exactly") {
  Zone zone = house_to_air(1);
  zone.airing = AirChanges{3, unit::per_hour};
  for (const Label& label : {mixed_label(), acid_chlorite_label(0.01), label_with({vapour(peroxide, 0.03)})}) {
    for (const double deadline : {0.0, 0.5, 1.0, 2.0, 3.5, 5.0}) {
      CAPTURE(deadline);
      const HoldTime wanted{deadline, unit::hour};
      const auto volume = volume_for_deadline(zone, input_of(label, litre), wanted);
      REQUIRE(volume);
      CHECK(model_time(zone, label, *zone.airing, *volume) <= wanted);
      // Exact where nothing peaks after the deadline.
      if (deadline > 3) CHECK(model_time(zone, label, *zone.airing, *volume * (1 + 1e-9)) > wanted);
    }
  }
}

TEST_CASE("the dose for a deadline does not depend on the volume it was scaled from") {
  Zone zone = house_to_air(1);
  zone.airing = AirChanges{3, unit::per_hour};
  const Label label = mixed_label();
  const auto from = [&](LiquidVolume volume) {
    return volume_for_deadline(zone, input_of(label, volume), HoldTime{4, unit::hour}).value().si();
  };
  CHECK(from(litre) == Approx(from(litre * 17)).epsilon(1e-12));
}

TEST_CASE("inverse questions that have no answer are refused") {
  Zone zone = house_to_air(2);
  zone.airing = AirChanges{3, unit::per_hour};
  const Label label = acid_chlorite_label(0.02);
  const AirInput input = input_of(label, litre);
  const auto code = [](const auto& refused) {
    REQUIRE_FALSE(refused);
    CHECK_FALSE(refused.error().message.empty());
    CHECK_FALSE(refused.error().where.empty());
    CHECK_FALSE(refused.error().hint.empty());
    return refused.error().code;
  };
  CHECK(code(airing_for_deadline(zone, input, HoldTime{2, unit::hour})) == ErrorCode::out_of_range);
  CHECK(code(airing_for_deadline(zone, input, HoldTime{-1, unit::hour})) == ErrorCode::out_of_range);
  CHECK(code(airing_for_deadline(zone, input, HoldTime{121, unit::minute})) == ErrorCode::not_found);
  CHECK(code(volume_for_deadline(zone, input, HoldTime{31, unit::day})) == ErrorCode::out_of_range);
  CHECK(code(volume_for_deadline(zone, input_of(label, LiquidVolume{}), HoldTime{4, unit::hour})) ==
        ErrorCode::out_of_range);

  const Label unknown = label_with({vapour(peracetic_acid, 0.01)});
  CHECK(code(airing_for_deadline(zone, input_of(unknown, litre), HoldTime{4, unit::hour})) ==
        ErrorCode::label_incomplete);
  CHECK(code(volume_for_deadline(zone, input_of(unknown, litre), HoldTime{4, unit::hour})) ==
        ErrorCode::label_incomplete);
  const Label only_mist = label_with({mist("57-55-6", 0.01)});
  CHECK(code(volume_for_deadline(zone, input_of(only_mist, litre), HoldTime{4, unit::hour})) ==
        ErrorCode::not_found);
}

TEST_CASE("air that is clear by far sets no more than the model's own largest volume") {
  Zone zone = house_to_air(0);
  zone.airing = AirChanges{100, unit::per_hour};
  const Label label = label_with({vapour(peroxide, 0.03)});
  const auto volume = volume_for_deadline(zone, input_of(label, litre), HoldTime{20, unit::day});
  CHECK(volume.value().value_in(unit::litre) == Approx(100'000));
}

TEST_CASE("low and high cases stand on either side of the plan") {
  Zone zone = house_to_air(1);
  zone.airing = AirChanges{3, unit::per_hour};
  const Label label = mixed_label();
  const AirInput input = input_of(label, litre);
  const AirResult nominal = air_after_fogging(zone, input).value();
  CaseSpread spread;
  spread.volume_low = LiquidVolume{0.8, unit::litre};
  spread.volume_high = LiquidVolume{1.2, unit::litre};
  const AirCases cases = air_with_cases(zone, input, spread).value().cases;
  CHECK(cases.low < nominal.model_time);
  CHECK(cases.high > nominal.model_time);

  Zone friendly = zone, hostile = zone;
  friendly.closed = spread.closed_high;
  friendly.airing = AirChanges{4.5, unit::per_hour};
  hostile.airing = AirChanges{1.5, unit::per_hour};
  hostile.free_fraction = 0.95;
  const AirResult low = air_after_fogging(friendly, input_of(label, spread.volume_low)).value();
  const AirResult high = air_after_fogging(hostile, input_of(label, spread.volume_high)).value();
  CHECK(cases.low == low.model_time);
  CHECK(cases.high == high.model_time);
  CHECK(cases.low_peak == low.actives[0].peak);  // chlorine dioxide has the highest hazard ratio
  CHECK(cases.high_peak == high.actives[0].peak);
}

TEST_CASE("a spread cannot turn the cases round, and one that leaves no air is refused") {
  const Label label = mixed_label();
  const AirInput input = input_of(label, litre);
  Zone zone = house_to_air(1);
  zone.closed = AirChanges{2, unit::per_hour};  // above the spread's own
  const HoldTime nominal = air_after_fogging(zone, input)->model_time;
  CaseSpread spread;
  spread.volume_low = LiquidVolume{2, unit::litre};
  spread.volume_high = LiquidVolume{0.5, unit::litre};
  const AirCases cases = air_with_cases(zone, input, spread).value().cases;
  CHECK(cases.low <= nominal);
  CHECK(cases.high >= nominal);
  spread.free_fraction_deviation = 1;
  CHECK(air_with_cases(zone, input, spread).error().code == ErrorCode::out_of_range);
}
