// SPDX-License-Identifier: Apache-2.0
#include <cassert>
#include <cmath>
#include <limits>

#include "fogwright/air.hpp"

namespace fogwright {

double purge_minutes(double air_changes_per_hour, double efficiency, double mixing_factor) {
  if (efficiency <= 0) return 0;
  if (!(air_changes_per_hour > 0)) return std::numeric_limits<double>::infinity();
  return -std::log1p(-efficiency) / air_changes_per_hour * 60 * mixing_factor;
}

double mixture_index(std::span<const double> concentrations, std::span<const double> limits) {
  assert(concentrations.size() == limits.size());
  double sum = 0;
  for (std::size_t i = 0; i < concentrations.size(); ++i) sum += concentrations[i] / limits[i];
  return sum;
}

double eight_hour_average(std::span<const double> concentrations, std::span<const double> hours) {
  assert(concentrations.size() == hours.size());
  double sum = 0;
  for (std::size_t i = 0; i < concentrations.size(); ++i) sum += concentrations[i] * hours[i];
  return sum / 8;
}

}  // namespace fogwright
