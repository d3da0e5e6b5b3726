// SPDX-License-Identifier: Apache-2.0
#include "air/psychrometrics.hpp"

#include <algorithm>
#include <cmath>

#include "air/constants.hpp"

namespace fogwright {

namespace {

constexpr double triple_point_k =
    273.16;  // the branches meet here; switching at 273.15 breaks the inverse near 0 °C
constexpr double coldest_k = 173.15;  // the ice formula's own lower end

/// ln of the saturation pressure in Pa, and its slope per K.
struct LogPressure {
  double value = 0, slope = 0;
};

LogPressure over_water(double t) {
  const double value = -5.8002206e3 / t + 1.3914993 +
                       t * (-4.8640239e-2 + t * (4.1764768e-5 - t * 1.4452093e-8)) + 6.5459673 * std::log(t);
  const double slope =
      5.8002206e3 / (t * t) - 4.8640239e-2 + t * (2 * 4.1764768e-5 - t * 3 * 1.4452093e-8) + 6.5459673 / t;
  return {value, slope};
}

LogPressure over_ice(double t) {
  const double value = -5.6745359e3 / t + 6.3925247 +
                       t * (-9.677843e-3 + t * (6.2215701e-7 + t * (2.0747825e-9 - t * 9.484024e-13))) +
                       4.1635019 * std::log(t);
  const double slope = 5.6745359e3 / (t * t) - 9.677843e-3 +
                       t * (2 * 6.2215701e-7 + t * (3 * 2.0747825e-9 - t * 4 * 9.484024e-13)) + 4.1635019 / t;
  return {value, slope};
}

LogPressure log_pressure(double t) { return t < triple_point_k ? over_ice(t) : over_water(t); }

/// Inverse of the Magnus formula (WMO): good to some 0.1 K, where Newton's method starts.
double magnus_dew_point_k(double log_pa) {
  const double x = log_pa - std::log(611.2);
  return 273.15 + 243.12 * x / (17.62 - x);
}

}  // namespace

double humidity_ratio(double vapour_pressure_pa, Pressure pressure) {
  return 0.621945 * vapour_pressure_pa / (pressure.si() - vapour_pressure_pa);
}

namespace air {

SaturatedAir::SaturatedAir(Temperature temperature)
    : temperature_(temperature), log_pressure_(log_pressure(temperature.in_kelvin()).value) {}

double SaturatedAir::pressure_pa() const { return std::exp(log_pressure_); }

Temperature SaturatedAir::dew_point(double relative_humidity) const {
  if (relative_humidity >= 1) return temperature_;
  static const double lowest = log_pressure(coldest_k).value;
  const double wanted = std::max(log_pressure_ + std::log(std::max(relative_humidity, 1e-300)), lowest);
  double guess = magnus_dew_point_k(wanted);
  for (int i = 0; i < 20; ++i) {
    const LogPressure here = log_pressure(guess);
    const double step = (wanted - here.value) / here.slope;
    guess = std::clamp(guess + step, coldest_k, temperature_.in_kelvin());
    if (std::abs(step) < 1e-6) break;  // Newton squares the error: what is left is below 1e-12
  }
  return Temperature::kelvin(guess);
}

}  // namespace air

double saturation_pressure_pa(Temperature t) { return air::SaturatedAir(t).pressure_pa(); }

Temperature dew_point(Temperature t, double relative_humidity) {
  return air::SaturatedAir(t).dew_point(relative_humidity);
}

}  // namespace fogwright
