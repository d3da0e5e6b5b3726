// SPDX-License-Identifier: Apache-2.0
#include <cmath>

#include "fogwright/air.hpp"

namespace fogwright {

namespace {

// Air at 20 °C, 1 atm.
constexpr double viscosity = 1.81e-5;        // Pa s
constexpr double air_density = 1.205;        // kg/m3
constexpr double mean_free_path = 0.066e-6;  // m
constexpr double gravity = 9.81;             // m/s2
constexpr double stokes_ends_at_reynolds = 0.1;

double reynolds(double velocity, double diameter) { return air_density * velocity * diameter / viscosity; }

/// Solves v (1 + 0.15 Re^0.687) = stokes for v; the left side is convex and rising, so Newton from above
/// converges.
double with_drag(double stokes, double diameter) {
  const double at_stokes = 0.15 * std::pow(reynolds(stokes, diameter), 0.687);
  double v = stokes;
  for (int i = 0; i < 50; ++i) {
    const double drag = at_stokes * std::pow(v / stokes, 0.687);
    const double step = (v * (1 + drag) - stokes) / (1 + 1.687 * drag);
    v -= step;
    if (std::abs(step) < 1e-14 * v) break;
  }
  return v;
}

}  // namespace

double slip_correction(Length diameter) {
  const double mean_free_paths = diameter.si() / mean_free_path;
  return 1 + (2.34 + 1.05 * std::exp(-0.39 * mean_free_paths)) / mean_free_paths;
}

double settling_velocity_m_s(Length diameter, double density_kg_m3) {
  const double d = diameter.si();
  if (!(d > 0)) return 0;
  const double per_density = d * d * gravity * slip_correction(diameter) / (18 * viscosity);
  const double stokes = density_kg_m3 * per_density;
  if (reynolds(stokes, d) < stokes_ends_at_reynolds) return stokes;
  return with_drag((density_kg_m3 - air_density) * per_density, d);
}

}  // namespace fogwright
