// SPDX-License-Identifier: Apache-2.0
// The closed forms against an ODE solver that knows nothing of them: GNU Scientific Library, gsl_odeiv2, rk8pd.
#include <gsl/gsl_odeiv2.h>

#include <catch2/catch.hpp>
#include <limits>
#include <memory>
#include <random>

#include "fogwright/air.hpp"

using namespace fogwright;

namespace {

int mass_balance(double, const double y[], double dydt[], void* parameters) {
  const auto& phase = *static_cast<const Phase*>(parameters);
  dydt[0] = phase.emission_mg_per_m3_hour - phase.removal_per_hour * y[0];
  dydt[1] = y[0];  // the integral
  return 0;
}

struct State {
  double concentration = 0, integral = 0;
};

State solved(const Phase& phase, State state) {
  Phase parameters = phase;
  gsl_odeiv2_system system{mass_balance, nullptr, 2, &parameters};
  const std::unique_ptr<gsl_odeiv2_driver, void (*)(gsl_odeiv2_driver*)> driver(
      gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, 1e-4, 0, 1e-12), gsl_odeiv2_driver_free);
  double t = 0;
  double y[] = {state.concentration, state.integral};
  REQUIRE(gsl_odeiv2_driver_apply(driver.get(), &t, phase.hours, y) == 0);
  return {y[0], y[1]};
}

}  // namespace

TEST_CASE("the closed forms agree with an ODE solver on 400 random sequences of phases") {
  std::mt19937_64 random(20260101);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  const auto one_in = [&](int n) { return std::uniform_int_distribution<int>(1, n)(random) == 1; };
  for (int sequence = 0; sequence < 400; ++sequence) {
    std::vector<Phase> phases(std::uniform_int_distribution<std::size_t>(1, 8)(random));
    for (Phase& phase : phases)
      phase = {between(0.01, 3), one_in(6) ? 0 : between(0, 6), one_in(2) ? 0 : between(0, 50)};
    State state{between(0.1, 20), 0};
    const ConcentrationCurve curve(state.concentration, phases);
    double now = 0;
    for (const Phase& phase : phases) {
      state = solved(phase, state);
      now += phase.hours;
      CAPTURE(sequence, now);
      CHECK(curve.at(now) == Approx(state.concentration).epsilon(1e-8));
      CHECK(curve.integral(now) == Approx(state.integral).epsilon(1e-8));
    }
  }
}

TEST_CASE("the time to a limit is the last time that a dense sampling sees it exceeded") {
  std::mt19937_64 random(20260102);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  for (int sequence = 0; sequence < 300; ++sequence) {
    std::vector<Phase> phases(5);
    for (Phase& phase : phases) phase = {between(0.1, 2), between(0, 4), between(-20, 20)};
    for (Phase& phase : phases) phase.emission_mg_per_m3_hour = std::max(phase.emission_mg_per_m3_hour, 0.0);
    phases.push_back({std::numeric_limits<double>::infinity(), between(0.1, 2), 0});
    const ConcentrationCurve curve(between(0, 20), phases);
    const double limit = between(0.5, 15);
    const double from = curve.stays_below_from(limit);
    CAPTURE(sequence, limit, from);
    const double end = 80, step = 0.002;
    double last_above = -1;
    for (double t = 0; t < end; t += step)
      if (curve.at(t) > limit) last_above = t;
    if (last_above < 0) {
      CHECK(from <= step);
    } else {
      CHECK(from >= last_above);
      CHECK(from <= last_above + 1.001 * step);
    }
    CHECK(curve.peak() >= curve.at(from));
  }
}
