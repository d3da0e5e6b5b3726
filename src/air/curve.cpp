// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include "fogwright/air.hpp"

namespace fogwright {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// (1 - e^-x) / x: the mean of e^-s over s in 0..x. expm1 keeps the digits that 1 - exp would lose.
double mean_decay(double x) { return x < 1e-8 ? 1 - x / 2 : -std::expm1(-x) / x; }

/// (1 - mean_decay(x)) / x, which cancels below x of about 0.01.
double mean_build_up(double x) {
  if (x < 0.01) return 1.0 / 2 - x * (1.0 / 6 - x * (1.0 / 24 - x * (1.0 / 120 - x / 720)));
  return (1 - mean_decay(x)) / x;
}

/// Where a phase without end leads to.
double settles_at(const Phase& phase, double start) {
  const bool emits = phase.emission_mg_per_m3_hour > 0;
  if (phase.removal_per_hour > 0) return emits ? phase.emission_mg_per_m3_hour / phase.removal_per_hour : 0;
  return emits ? infinity : start;
}

double concentration(const Phase& phase, double start, double hours) {
  if (std::isinf(hours)) return settles_at(phase, start);
  const double x = phase.removal_per_hour * hours;
  const double left = start == 0 ? 0 : start * std::exp(-x);
  if (phase.emission_mg_per_m3_hour == 0) return left;
  return left + phase.emission_mg_per_m3_hour * hours * mean_decay(x);
}

double integral_over(const Phase& phase, double start, double hours) {
  if (std::isinf(hours)) {
    if (settles_at(phase, start) > 0) return infinity;
    return start > 0 ? start / phase.removal_per_hour : 0;
  }
  const double x = phase.removal_per_hour * hours;
  return start * hours * mean_decay(x) + phase.emission_mg_per_m3_hour * hours * hours * mean_build_up(x);
}

/// Hours from `start`, above the limit, down to a limit that lies at or above where the phase settles.
double down_crossing(const Phase& phase, double start, double limit) {
  const double floor = settles_at(phase, start);
  return std::log((start - floor) / (limit - floor)) / phase.removal_per_hour;
}

}  // namespace

ConcentrationCurve::ConcentrationCurve(double start_mg_per_m3, std::span<const Phase> phases)
    : count_(phases.size()) {
  assert(phases.size() <= most_phases);
  start_[0] = start_mg_per_m3;
  for (std::size_t i = 0; i < count_; ++i) {
    phases_[i] = phases[i];
    start_[i + 1] = concentration(phases[i], start_[i], phases[i].hours);
    begins_[i + 1] = begins_[i] + phases[i].hours;
  }
}

double ConcentrationCurve::at(double hours) const {
  if (hours >= begins_[count_]) return start_[count_];
  std::size_t i = count_ - 1;
  while (i > 0 && begins_[i] > hours) --i;
  return concentration(phases_[i], start_[i], std::max(hours - begins_[i], 0.0));
}

// Within a phase the concentration only rises or only falls, so the ends of phases hold every extreme.

double ConcentrationCurve::peak() const { return peak_from(0); }

double ConcentrationCurve::peak_from(double hours) const {
  double highest = at(hours);
  for (std::size_t i = count_ + 1; i-- > 0 && begins_[i] >= hours;) highest = std::max(highest, start_[i]);
  return highest;
}

double ConcentrationCurve::stays_below_from(double limit_mg_per_m3) const {
  if (!(start_[count_] <= limit_mg_per_m3)) return infinity;
  for (std::size_t i = count_; i-- > 0;) {
    if (start_[i] <= limit_mg_per_m3) continue;
    return begins_[i] + std::min(down_crossing(phases_[i], start_[i], limit_mg_per_m3), phases_[i].hours);
  }
  return 0;
}

double ConcentrationCurve::integral(double hours) const {
  double sum = 0;
  for (std::size_t i = 0; i < count_ && begins_[i] < hours; ++i)
    sum += integral_over(phases_[i], start_[i], std::min(hours - begins_[i], phases_[i].hours));
  return sum;
}

}  // namespace fogwright
