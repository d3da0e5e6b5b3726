// SPDX-License-Identifier: Apache-2.0
// Expected values computed independently (double precision, 12 digits) unless a source is named.
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "fogwright/air.hpp"

using namespace fogwright;

namespace {

constexpr double never = std::numeric_limits<double>::infinity();
constexpr double house_m3 = 453.069545472;
constexpr double tenth_ppm_clo2 = 0.275687255503;  // mg/m3 at the exact molar volume

Approx near(double value) { return Approx(value).epsilon(1e-10); }

ConcentrationCurve pulse(double mg, double hours, double removal, double volume = house_m3) {
  const Phase phases[] = {{hours, removal, mg / hours / volume}, {never, removal, 0}};
  return {0, phases};
}

/// Fog for half an hour and hold to 1.5 h at 0.3 per hour, then purge.
ConcentrationCurve fog_hold_purge(double purge) {
  const Phase phases[] = {{0.5, 0.3, 10000 / 0.5 / house_m3}, {1.0, 0.3, 0}, {never, purge, 0}};
  return {0, phases};
}

}  // namespace

TEST_CASE("a pulse into one well-mixed zone") {
  const auto c = pulse(10000, 0.5, 0.5);
  CHECK(c.at(0.25) == near(10.3739568099));
  CHECK(c.peak() == near(19.5289415622));
  CHECK(c.at(2) == near(9.22481880443));
  CHECK(c.stays_below_from(tenth_ppm_clo2) == near(9.02077147184));
  CHECK(c.integral(never) == near(44.1433334019));
  CHECK(c.integral(0.5) / 0.5 == near(10.1709005548));
}

TEST_CASE("a first-order loss adds to ventilation") {
  const auto c = pulse(10000, 0.5, 3.3);
  CHECK(c.at(0.25) == near(7.51460000640));
  CHECK(c.peak() == near(10.8077606836));
  CHECK(c.at(2) == near(0.0765557885291));
  CHECK(c.stays_below_from(tenth_ppm_clo2) == near(1.61174322602));
  CHECK(c.integral(never) == near(6.68838384877));
}

TEST_CASE("without ventilation the peak is dose over volume and never clears") {
  const auto c = pulse(10000, 0.5, 0);
  CHECK(c.peak() == near(22.0716667009));
  CHECK(c.stays_below_from(tenth_ppm_clo2) == never);
  CHECK(c.integral(never) == never);
  CHECK(c.at(1e6) == near(22.0716667009));
}

TEST_CASE("a smaller free volume with the same air changes raises the peak") {
  CHECK(pulse(10000, 0.5, 0.5, house_m3 * 0.89).peak() == near(21.9426309688));
}

TEST_CASE("fog, hold, purge") {
  const auto c = fog_hold_purge(4);
  CHECK(c.at(0.5) == near(20.4960474563));
  CHECK(c.at(1.5) == near(15.1838454076));
  CHECK(c.stays_below_from(tenth_ppm_clo2) == near(2.50218006213));
  CHECK(fog_hold_purge(0.3).stays_below_from(tenth_ppm_clo2) == near(14.8624008284));
  CHECK(fog_hold_purge(2.67248016568).stays_below_from(tenth_ppm_clo2) == near(3.0));
  CHECK(fog_hold_purge(4.0 / 3).stays_below_from(tenth_ppm_clo2) == near(1.5 + 3.00654018639));
  CHECK(10000 * tenth_ppm_clo2 / c.peak_from(2.5) == near(9913.17662563));
}

TEST_CASE("the mean over the following quarter of an hour") {
  const auto c = fog_hold_purge(4);
  const double mean = (c.integral(2.11285820362 + 0.25) - c.integral(2.11285820362)) / 0.25;
  CHECK(mean == near(3 * tenth_ppm_clo2));
  const Phase fast{never, 4.3, 0}, slow{never, 0.5, 0};
  CHECK(ConcentrationCurve(1, {&fast, 1}).integral(0.25) / 0.25 == near(0.612746274139));
  CHECK(ConcentrationCurve(1, {&slow, 1}).integral(8) / 8 == near(0.245421090278));
}

TEST_CASE("hydrogen peroxide with a loss, then aired out") {
  const Phase phases[] = {{1, 1.3, 50000 / house_m3}, {1, 1.3, 0}, {never, 5, 0}};
  const ConcentrationCurve c(0, phases);
  CHECK(c.at(1) == near(61.7555223064));
  CHECK(c.at(2) == near(16.8303432239));
  CHECK(c.stays_below_from(1.39028975042) == near(2.49873424452));
}

TEST_CASE("a concentration that never exceeds the limit is below it from the start") {
  const auto c = pulse(100, 0.25, 0.3);
  CHECK(c.at(0.25) == near(0.212642891564));
  CHECK(c.stays_below_from(tenth_ppm_clo2) == 0);
}

TEST_CASE("the last down-crossing counts, not the first") {
  // Down from 10 in the open, up again while closed and emitting, down at last.
  const Phase phases[] = {{2, 3, 0}, {2, 0, 1}, {never, 1, 0}};
  const ConcentrationCurve c(10, phases);
  REQUIRE(c.at(2) < 1);
  REQUIRE(c.at(4) > 2);
  CHECK(c.stays_below_from(1) == near(4 + std::log(c.at(4))));
  CHECK(c.peak() == 10);
  CHECK(c.peak_from(3) == near(c.at(4)));
}

TEST_CASE("a limit can be met while something is still given off") {
  const Phase phases[] = {{never, 2, 1}};  // settles at 0.5
  const ConcentrationCurve c(10, phases);
  const double t = c.stays_below_from(1);
  CHECK(t == near(std::log((10 - 0.5) / (1 - 0.5)) / 2));
  CHECK(c.at(t) == near(1));
  CHECK(c.stays_below_from(0.5) == never);
  CHECK(c.stays_below_from(0.4) == never);
  CHECK(c.peak_from(100) == near(0.5));
}

TEST_CASE("nothing comes out that is not a number") {
  const Phase emits_for_ever{never, 0, 1};
  const ConcentrationCurve rises(0, {&emits_for_ever, 1});
  CHECK(rises.stays_below_from(1) == never);
  CHECK(rises.peak() == never);
  const ConcentrationCurve empty(2, {});
  CHECK(empty.at(5) == 2);
  CHECK(empty.stays_below_from(2) == 0);
  CHECK(empty.stays_below_from(1) == never);
  CHECK(pulse(1, 1, 1).stays_below_from(0) == never);
  CHECK(pulse(0, 1, 1).stays_below_from(0) == 0);
  CHECK(pulse(1, 1, 1).at(-1) == 0);
}

TEST_CASE("a removal next to nothing loses no digits") {
  const Phase tiny{1, 1e-12, 3}, none{1, 0, 3};
  CHECK(ConcentrationCurve(2, {&tiny, 1}).at(1) == Approx(5).epsilon(1e-11));
  CHECK(ConcentrationCurve(2, {&tiny, 1}).integral(1) ==
        Approx(ConcentrationCurve(2, {&none, 1}).integral(1)).epsilon(1e-11));
  // Either side of the switch between series and closed form.
  for (const double x : {0.9e-8, 1.1e-8, 0.0099, 0.0101}) {
    const Phase phase{1, x, 1};
    const ConcentrationCurve c(0, {&phase, 1});
    CHECK(c.at(1) == Approx(1 - x / 2 + x * x / 6 - x * x * x / 24).epsilon(1e-9));
    CHECK(c.integral(1) == Approx(0.5 - x / 6 + x * x / 24 - x * x * x / 120).epsilon(1e-9));
  }
}
