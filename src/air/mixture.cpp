// SPDX-License-Identifier: Apache-2.0
#include "air/mixture.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace fogwright::air {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double resolution_hours = 1e-9;

double sum_at(std::span<const ConcentrationCurve> curves, double hours) {
  double sum = 0;
  for (const auto& curve : curves) sum += curve.at(hours);
  return sum;
}

/// Not exceeded anywhere between a and b, when no phase starts in between: each curve only rises or only falls.
double bound_between(std::span<const ConcentrationCurve> curves, double a, double b) {
  double sum = 0;
  for (const auto& curve : curves) sum += std::max(curve.at(a), curve.at(b));
  return sum;
}

/// The end of the last stretch between a and b in which the sum may exceed 1; negative where there is none. One
/// part may rise while another falls, so the sum can cross 1 more than once.
double last_above(std::span<const ConcentrationCurve> curves, double a, double b) {
  if (bound_between(curves, a, b) <= 1) return -1;
  if (b - a <= resolution_hours * std::max(1.0, b)) return b;
  const double middle = a + (b - a) / 2;
  const double right = last_above(curves, middle, b);
  return right >= 0 ? right : last_above(curves, a, middle);
}

/// A time after `from`, when nothing is given off any more, at which the sum is at or below 1.
double surely_below(std::span<const ConcentrationCurve> curves, double from) {
  if (sum_at(curves, infinity) > 1) return infinity;
  double hours = std::max(from, 1.0);
  while (sum_at(curves, hours) > 1 && std::isfinite(hours)) hours *= 2;
  return hours;
}

/// `changes`: when phases start, in order, 0 first.
HoldTime time_below(std::span<const ConcentrationCurve> curves, std::span<const double> changes) {
  double end = surely_below(curves, changes.back());
  if (std::isinf(end)) return HoldTime{infinity, unit::hour};
  for (std::size_t i = changes.size(); i-- > 0; end = changes[i]) {
    const double found = last_above(curves, changes[i], end);
    if (found >= 0) return HoldTime{found, unit::hour};
  }
  return HoldTime{};
}

bool counts(const ActiveAir& air) { return air.to_occupant.has_value(); }

/// The source of an active that counts, as a multiple of its occupant limit.
Source weighed_source(const Zone& zone, const Label& label, const ActiveAir& air) {
  return source_of(zone, label, *air.active, air.peak / *air.occupant);
}

TimeToLimit time_of_unlike(const Zone& zone, const Label& label, const Ventilation& ventilation,
                           std::span<const ActiveAir> actives) {
  std::vector<ConcentrationCurve> at_once, off_gassing;
  std::vector<double> changes{0};
  if (std::isfinite(ventilation.airing_from)) changes.push_back(ventilation.airing_from);
  for (const ActiveAir& air : actives) {
    if (!counts(air)) continue;
    const Source source = weighed_source(zone, label, air);
    const BothReleases releases(ventilation, source);
    at_once.push_back(releases.at_once);
    off_gassing.push_back(releases.off_gassing);
    changes.push_back(source.off_gassing_hours);
  }
  std::sort(changes.begin(), changes.end());
  return {time_below(at_once, changes), time_below(off_gassing, changes)};
}

}  // namespace

std::optional<TimeToLimit> mixture_time(const Zone& zone, const Label& label, const Ventilation& ventilation,
                                        std::span<const ActiveAir> actives) {
  const ActiveAir* first = nullptr;
  std::optional<Source> sum;
  for (const ActiveAir& air : actives) {
    if (!counts(air)) continue;
    if (!first) {
      first = &air;
      continue;
    }
    if (!sum) sum = weighed_source(zone, label, *first);
    const Source source = weighed_source(zone, label, air);
    if (source.loss_per_hour != sum->loss_per_hour || source.off_gassing_hours != sum->off_gassing_hours)
      return time_of_unlike(zone, label, ventilation, actives);
    sum->at_once += source.at_once;
  }
  if (sum) return BothReleases(ventilation, *sum).time_to(1);
  return first ? first->to_occupant : std::nullopt;
}

}  // namespace fogwright::air
