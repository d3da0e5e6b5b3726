// SPDX-License-Identifier: Apache-2.0
#include <gsl/gsl_cdf.h>

#include <catch2/catch.hpp>
#include <limits>

#include "dose/houses.hpp"
#include "dose/student_t.hpp"
#include "table_file.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

CatchTest caught(double millilitres, double seconds) { return {ml(millilitres), {seconds, unit::second}}; }
double ml_per_min(LiquidFlow flow) { return flow.value_in(unit::millilitre_per_minute); }
double minutes(FogTime time) { return time.value_in(unit::minute); }
LiquidFlow flow_of(double millilitres_per_minute) {
  return {millilitres_per_minute, unit::millilitre_per_minute};
}

}  // namespace

TEST_CASE("Student's t is as published", "[dose]") {
  const auto rows = table_rows("student_t_975.txt", 2);
  REQUIRE(rows.size() == 33);
  for (const Row& row : rows) {
    INFO(row[0] << " degrees of freedom");
    CHECK(student_t_95(std::stoi(row[0])) == Approx(std::stod(row[1])).margin(0.0005001).epsilon(0));
  }
}

TEST_CASE("Student's t agrees with the GNU Scientific Library", "[dose]") {
  for (int n = 1; n <= 1000; ++n) {
    INFO(n << " degrees of freedom");
    CHECK(student_t_95(n) == Approx(gsl_cdf_tdist_Pinv(0.975, n)).epsilon(1.5e-6));
  }
}

TEST_CASE("three catch tests give a flow with its bounds", "[dose]") {
  // Computed independently: s = 3, u = 3/sqrt(3), t(2) = 4.30265272991, half-width 7.45241313553 mL/min.
  const std::vector<CatchTest> runs{caught(198, 60), caught(204, 60), caught(201, 60)};
  const Calibration result = calibrate(runs).value();
  CHECK(ml_per_min(result.flow) == Approx(201).epsilon(1e-12));
  CHECK(result.relative_spread == Approx(3.0 / 201).epsilon(1e-12));
  CHECK(ml_per_min(result.high) - 201 == Approx(7.45241313553).epsilon(1e-8));
  CHECK(201 - ml_per_min(result.low) == Approx(7.45241313553).epsilon(1e-8));
  CHECK(result.runs == 3);
  CHECK(result.basis == Basis::measured);
  CHECK_FALSE(result.large_spread);

  // Computed independently: a quart at the mean and at both bounds.
  const LiquidVolume quart(1, unit::us_quart);
  CHECK(minutes(quart / result.flow) == Approx(4.70822361194).epsilon(1e-11));
  CHECK(minutes(quart / result.low) == Approx(4.88951043685).epsilon(1e-8));
  CHECK(minutes(quart / result.high) == Approx(4.53989921136).epsilon(1e-8));
}

TEST_CASE("runs of unequal length count by their time", "[dose]") {
  // Computed independently: the ratio of sums, and the line through the origin.
  const std::vector<CatchTest> runs{caught(99, 30), caught(201, 60), caught(305, 90)};
  CHECK(calibrate(runs).value().flow.value_in(unit::millilitre_per_second) ==
        Approx(3.36111111111).epsilon(1e-11));
  const std::vector<double> seconds{30, 60, 90}, millilitres{99, 201, 305};
  CHECK(fit_through_origin(seconds, millilitres).value().slope == Approx(3.37142857143).epsilon(1e-11));
}

TEST_CASE("a fit through the origin matches the certified values", "[dose]") {
  const auto rows = table_rows("nist_noint.txt", 6);
  REQUIRE(rows.size() == 2);
  for (const Row& row : rows) {
    INFO(row[0]);
    const OriginFit fit = fit_through_origin(numbers<double>(row[1]), numbers<double>(row[2])).value();
    CHECK(fit.slope == Approx(std::stod(row[3])).epsilon(1e-13));
    CHECK(fit.standard_error == Approx(std::stod(row[4])).epsilon(1e-13));
    CHECK(fit.residual_deviation == Approx(std::stod(row[5])).epsilon(1e-13));
  }
}

// 10 % and three runs: common practice, no source.
TEST_CASE("a large spread, and too few runs, are marked", "[dose]") {
  const auto marked = [](std::vector<CatchTest> runs) { return calibrate(runs).value().large_spread; };
  CHECK(marked({caught(200, 60)}));
  CHECK(marked({caught(200, 60), caught(200, 60)}));
  CHECK_FALSE(marked({caught(200, 60), caught(200, 60), caught(200, 60)}));
  CHECK_FALSE(marked({caught(181, 60), caught(200, 60), caught(219, 60)}));  // 9.5 %
  CHECK(marked({caught(179, 60), caught(200, 60), caught(221, 60)}));        // 10.5 %
}

TEST_CASE("bounds never fall below zero, and one run has none of its own", "[dose]") {
  const std::vector<CatchTest> two{caught(100, 60), caught(200, 60)};
  const Calibration wide = calibrate(two).value();
  CHECK(wide.low.si() == 0);
  CHECK(wide.high > wide.flow);
  const std::vector<CatchTest> one{caught(200, 60)};
  const Calibration single = calibrate(one).value();
  CHECK(single.low == single.flow);
  CHECK(single.high == single.flow);
  CHECK(single.relative_spread == 0);
}

TEST_CASE("volume is flow times time, with the bounds on their own sides", "[dose]") {
  const Calibration calibration{flow_of(180), flow_of(170), flow_of(192), 0.02, 3, Basis::measured, false};
  const FogVolume volume = fog_volume(calibration, 120, 150);
  CHECK(volume.target.value_in(unit::millilitre) == Approx(360).epsilon(1e-12));
  CHECK(volume.low.value_in(unit::millilitre) == Approx(340).epsilon(1e-12));
  CHECK(volume.high.value_in(unit::millilitre) == Approx(480).epsilon(1e-12));
}

TEST_CASE("a flow that was entered has no spread, and none may be zero or absurd", "[dose]") {
  const Calibration entered = entered_flow(flow_of(180)).value();
  CHECK(entered.flow == flow_of(180));
  CHECK(entered.low == entered.flow);
  CHECK(entered.high == entered.flow);
  CHECK(entered.basis == Basis::entered);
  CHECK(entered.runs == 0);
  CHECK_FALSE(entered.large_spread);
  CHECK(entered_flow(flow_of(20'000)).has_value());
  const std::string hint = "Give the fogger's output, such as 180 mL/min or 6 fl oz/min.";
  check_refused(entered_flow(flow_of(0)), ErrorCode::out_of_range,
                "A flow of 0 mL/min is not above zero and up to 20 L/min.", "flow", hint);
  check_refused(entered_flow(flow_of(20'100)), ErrorCode::out_of_range,
                "A flow of 20,100 mL/min is not above zero and up to 20 L/min.", "flow", hint);
  CHECK_FALSE(entered_flow(flow_of(-1)).has_value());
  CHECK_FALSE(entered_flow(flow_of(std::numeric_limits<double>::quiet_NaN())).has_value());
}

TEST_CASE("catch tests that measure nothing are refused", "[dose]") {
  check_refused(calibrate({}), ErrorCode::missing_value, "A calibration needs at least one catch test.",
                "catch tests", "Catch the fog of three timed runs and give the volume and the time of each.");
  const std::vector<CatchTest> dry{caught(200, 60), caught(0, 60)}, instant{caught(200, 0)};
  check_refused(calibrate(dry), ErrorCode::out_of_range, "The volume of catch test 2 is not above zero.",
                "catch test 2", "Repeat this run, or leave it out.");
  check_refused(calibrate(instant), ErrorCode::out_of_range, "The time of catch test 1 is not above zero.",
                "catch test 1", "Repeat this run, or leave it out.");
  const std::vector<CatchTest> flood{caught(200'000, 60)};
  check_refused(calibrate(flood), ErrorCode::out_of_range,
                "A flow of 200,000 mL/min is not above zero and up to 20 L/min.", "catch tests",
                "Check the units of the volumes and times.");
}

TEST_CASE("a fit needs two points and an x that is not zero", "[dose]") {
  const std::vector<double> none, one{1}, two{1, 2}, zeros{0, 0},
      infinite{1, std::numeric_limits<double>::infinity()};
  check_refused(fit_through_origin(one, one), ErrorCode::missing_value,
                "A fit needs two points or more; there are 1 x and 1 y.", "points",
                "Give as many y as x, at least two of each.");
  CHECK(fit_through_origin(two, one).error().code == ErrorCode::missing_value);
  CHECK(fit_through_origin(none, none).error().code == ErrorCode::missing_value);
  for (const auto& x : {zeros, infinite})
    check_refused(fit_through_origin(x, two), ErrorCode::out_of_range,
                  "A line through the origin cannot be fitted to these points.", "points",
                  "Give finite values, and at least one x that is not zero.");
}
