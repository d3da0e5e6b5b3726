// SPDX-License-Identifier: Apache-2.0
/// The air of a job after fog-off, as it was planned.
#include <fmt/format.h>
#include <algorithm>
#include <cmath>

#include "air/release.hpp"
#include "press/parts.hpp"

namespace fogwright::press {

using paper::Word;

namespace {

constexpr int points = 240;
constexpr double least_minutes = 60;

double mg_m3(MassConcentration value) { return value.value_in(unit::milligram_per_cubic_metre); }

paper::ChartSeries sampled(std::string name, paper::Look look, const ConcentrationCurve& curve,
                           double minutes) {
  paper::ChartSeries series{std::move(name), look, {}};
  for (int i = 0; i <= points; ++i) {
    const double at = minutes * i / points;
    series.points.push_back({at, curve.at(at / 60)});
  }
  return series;
}

void add_level(std::vector<paper::ChartLevel>& levels, const Source& source, Word name,
               const std::optional<GoverningLimit>& limit) {
  if (limit) levels.push_back({word(source.language, name), mg_m3(limit->value)});
}

std::vector<paper::ChartLevel> limits_of(const Source& source, const ActiveAir& one) {
  std::vector<paper::ChartLevel> levels;
  add_level(levels, source, Word::dangerous_limit, one.immediately_dangerous);
  add_level(levels, source, Word::ceiling_limit, one.ceiling);
  add_level(levels, source, Word::short_term_limit, one.short_term);
  add_level(levels, source, Word::eight_hour_limit, one.worker);
  if (one.occupant) levels.push_back({word(source.language, Word::occupant_limit), mg_m3(*one.occupant)});
  return levels;
}

std::string name_of(const ActiveAir& one) {
  if (one.active->released_name) return *one.active->released_name;
  return one.active->name;
}

paper::ConcentrationCurve curve_of(const Source& source, const Replanned& again, const ActiveAir& one) {
  const Zone& zone = again.plan.zone;
  const Label& label = *again.plan.label;
  const air::Source released = air::source_of(zone, label, *one.active, mg_m3(one.peak));
  const air::BothReleases both(air::ventilation_of(zone, label), released);
  paper::ConcentrationCurve curve;
  curve.substance = name_of(one);
  curve.hold_minutes = static_cast<double>(again.hold_minutes);
  const double minutes = std::max(least_minutes, curve.hold_minutes * 1.15);
  curve.releases.push_back(
      sampled(word(source.language, Word::all_at_once), paper::Look::line, both.at_once, minutes));
  if (released.off_gassing_hours > 0)
    curve.releases.push_back(
        sampled(word(source.language, Word::given_off, show(HoldTime(released.off_gassing_hours, unit::hour))),
                paper::Look::dashed, both.off_gassing, minutes));
  curve.limits = limits_of(source, one);
  return curve;
}

double lasts(const ActiveAir& one) { return one.to_occupant ? one.to_occupant->longer().si() : 0; }

}  // namespace

tl::expected<std::vector<paper::ConcentrationCurve>, Faults> concentration_curves(const Source& source,
                                                                                  const std::string& job) {
  auto again = replan(source.now, job);
  if (!again) return tl::make_unexpected(std::move(again.error()));
  std::vector<const ActiveAir*> actives;
  for (const ActiveAir& one : again->plan.air.actives)
    if (one.active->mass_fraction) actives.push_back(&one);
  if (actives.empty())
    return tl::make_unexpected(
        Faults{{ErrorCode::not_found,
                fmt::format("nothing that could be estimated goes into the air of job {} as gas or vapor", job),
                {},
                "its hold stands by the label, the policy and the haze: fogwright job show tells it"}});
  std::stable_sort(actives.begin(), actives.end(),
                   [](const ActiveAir* a, const ActiveAir* b) { return lasts(*a) > lasts(*b); });
  std::vector<paper::ConcentrationCurve> curves;
  for (const ActiveAir* one : actives) curves.push_back(curve_of(source, *again, *one));
  return curves;
}

}  // namespace fogwright::press
