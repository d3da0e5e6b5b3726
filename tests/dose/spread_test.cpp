// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "dose/houses.hpp"
#include "dose/simulation.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

constexpr int draws = 400'000;

// Four standard errors of a simulated mean: a right model misses them once in 16,000 seeds.
double mean_margin(double deviation) { return 4 * deviation / std::sqrt(draws); }

Calibration measured(double relative_spread, int runs) {
  const LiquidFlow flow(200, unit::millilitre_per_minute);
  return {flow, flow, flow, relative_spread, runs, Basis::measured, false};
}

}  // namespace

TEST_CASE("the engine is the one that the standard describes", "[dose]") {
  // ISO/IEC 14882, [rand.predef]: the 10,000th value of a default-constructed mt19937_64 is
  // 9981545732273789042.
  std::mt19937_64 engine;
  engine.discard(9999);
  CHECK(engine() == 9981545732273789042u);
}

TEST_CASE("normal draws have the moments and tails of the normal distribution", "[dose]") {
  RandomDraws random(7);
  double sum = 0, squares = 0, fourths = 0;
  int beyond = 0;
  for (int i = 0; i < draws; ++i) {
    const double z = random.normal(0, 1);
    sum += z;
    squares += z * z;
    fourths += z * z * z * z;
    beyond += std::abs(z) > 1.959963984540054;
  }
  CHECK(sum / draws == Approx(0).margin(mean_margin(1)));
  CHECK(squares / draws == Approx(1).margin(mean_margin(std::sqrt(2))));
  CHECK(fourths / draws == Approx(3).margin(mean_margin(std::sqrt(96))));
  CHECK(static_cast<double>(beyond) / draws == Approx(0.05).margin(mean_margin(std::sqrt(0.05 * 0.95))));
}

TEST_CASE("the interval leaves as many values below as above", "[dose]") {
  // JCGM 101:2008, 7.7.2 (from memory): of 10,000 ordered values the 250th and the 9,750th.
  std::vector<double> values(10'000);
  std::iota(values.rbegin(), values.rend(), 1.0);
  const SpreadBand band = summarise(values);
  CHECK(band.low == 250);
  CHECK(band.high == 9750);
  CHECK(band.mean == 5000.5);
  CHECK(band.deviation == Approx(std::sqrt(10'000.0 * 10'001 / 12)).epsilon(1e-12));
}

// Read second-hand, in the tests of Sandia's uncertainty calculator suncal, as are the next one and NIST TN
// 1900.
TEST_CASE("four normal inputs: JCGM 101:2008, 9.2.2", "[dose]") {
  // Table 2 there: estimate 0, standard uncertainty 2.0, interval [-3.92, 3.92].
  const SpreadBand sum = simulate(draws, 1, [](RandomDraws& r) {
    return r.normal(0, 1) + r.normal(0, 1) + r.normal(0, 1) + r.normal(0, 1);
  });
  CHECK(sum.mean == Approx(0).margin(mean_margin(2)));
  CHECK(sum.deviation == Approx(2.0).margin(0.01));
  CHECK(sum.low == Approx(-3.92).margin(0.04));
  CHECK(sum.high == Approx(3.92).margin(0.04));
}

TEST_CASE("four rectangular inputs: JCGM 101:2008, 9.2.3", "[dose]") {
  // Table 3 there: standard uncertainty 2.0, interval [-3.88, 3.88].
  const double half = std::sqrt(3);
  const SpreadBand sum = simulate(draws, 1, [half](RandomDraws& r) {
    return r.rectangular(-half, half) + r.rectangular(-half, half) + r.rectangular(-half, half) +
           r.rectangular(-half, half);
  });
  CHECK(sum.mean == Approx(0).margin(mean_margin(2)));
  CHECK(sum.deviation == Approx(2.0).margin(0.01));
  CHECK(sum.low == Approx(-3.88).margin(0.03));
  CHECK(sum.high == Approx(3.88).margin(0.03));
}

TEST_CASE("a cadmium standard: Eurachem/CITAC QUAM, example A1", "[dose]") {
  // Read at measurementuncertainty.org. c = 1000 m P / V = 1002.7 mg/L with a standard uncertainty of 0.9 mg/L
  // (0.8637 with more digits).
  const SpreadBand c = simulate(draws, 1, [](RandomDraws& r) {
    return 1000 * r.normal(100.28, 0.05) * r.normal(0.9999, 0.000058) / r.normal(100.0, 0.07);
  });
  CHECK(c.mean == Approx(1002.7).margin(0.01));
  CHECK(c.deviation == Approx(0.86370).epsilon(0.01));
}

TEST_CASE("a falling-ball viscometer: NIST TN 1900, example E3", "[dose]") {
  // Published simulation: mean 5.82, standard uncertainty 1.11, 95 % interval [4.05, 8.39] mPa s.
  const SpreadBand viscosity = simulate(draws, 1, [](RandomDraws& r) {
    const double ball = r.normal(2217, 0.5);
    const double measured_liquid = r.normal(4.63, 0.0463) * r.normal(61, 6.1) * (ball - r.normal(1180, 0.5));
    return measured_liquid / (r.normal(36.6, 5.49) * (ball - r.normal(810, 0.5)));
  });
  CHECK(viscosity.mean == Approx(5.82).margin(0.02));
  CHECK(viscosity.deviation == Approx(1.11).margin(0.03));
  CHECK(viscosity.low == Approx(4.05).margin(0.02));
  CHECK(viscosity.high == Approx(8.39).margin(0.05));
}

TEST_CASE("a dose as a product of three factors", "[dose]") {
  // Computed independently: 201 (1.732) mL/min x 5 (0.05) min x 0.075 (0.00375) = 75.375, u 3.8982 by the exact
  // product.
  const SpreadBand dose = simulate(draws, 1, [](RandomDraws& r) {
    return r.normal(201, 1.732050808) * r.normal(5, 0.05) * r.normal(0.075, 0.00375);
  });
  CHECK(dose.mean == Approx(75.375).margin(mean_margin(3.9)));
  CHECK(dose.deviation == Approx(3.89820573512).epsilon(0.01));
}

TEST_CASE("the relative dose spreads as its factors do", "[dose]") {
  // Computed independently: 1 + r^2 = (1 + f^2)(1 + t^2)(1 + s^2), f = 0.06 sqrt(1 + 1/4), t = 1/50, s = 0.05.
  const SpreadBand band = dose_spread({measured(0.06, 4), 50}, draws);
  const double r = std::sqrt((1 + 0.0036 * 1.25) * (1 + 0.0004) * (1 + 0.0025) - 1);
  CHECK(band.mean == Approx(1).margin(mean_margin(r)));
  CHECK(band.deviation == Approx(r).epsilon(0.01));
  CHECK(band.low == Approx(1 - 1.96 * r).margin(0.01));
  CHECK(band.high == Approx(1 + 1.96 * r).margin(0.01));
}

TEST_CASE("the gallon rule spreads evenly between 12 and 10 jobs", "[dose]") {
  SpreadInput input{gallon_rule(), 126};
  input.time_standard_deviation_s = 0;
  input.active_relative_deviation = 0;
  const SpreadBand band = dose_spread(input, draws);
  const double low = 10.0 / 12, width = 1 - low;
  CHECK(band.mean == Approx(low + width / 2).margin(mean_margin(width / std::sqrt(12))));
  CHECK(band.deviation == Approx(width / std::sqrt(12)).epsilon(0.01));
  CHECK(band.low == Approx(low + 0.025 * width).margin(0.001));
  CHECK(band.high == Approx(low + 0.975 * width).margin(0.001));
}

TEST_CASE("the same input gives the same spread, another seed another", "[dose]") {
  const SpreadInput input{measured(0.06, 3), 126};
  const SpreadBand one = dose_spread(input), again = dose_spread(input), other = dose_spread(input, 10'000, 2);
  CHECK(one.mean == again.mean);
  CHECK(one.low == again.low);
  CHECK(one.high == again.high);
  CHECK(one.mean != other.mean);
}

TEST_CASE("a spread never goes below nothing and takes a thousand draws at least", "[dose]") {
  const SpreadBand short_burst = dose_spread({measured(0.05, 3), 1});  // a second kept to within a second
  CHECK(short_burst.low == 0);
  CHECK(short_burst.high > 2);
  const SpreadInput input{measured(0.05, 3), 126};
  CHECK(dose_spread(input, 0).mean == dose_spread(input, 1000).mean);
}
