// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "fogwright/plan.hpp"

namespace fogwright {
namespace {

constexpr auto ours = "assumption of this tool, on the side of caution";
constexpr auto practice = "common practice, no source";

std::string per_cent(double fraction) { return fmt::format("{} %", show_number(fraction * 100, 3)); }

void about_dose(std::vector<Assumption>& list, const PlanRequest& request, const Plan& plan, UnitSystem units) {
  list.push_back({"fog rate",
                  fmt::format("{} to {} s per 1,000 sq ft", plan.rate_band.low, plan.rate_band.high),
                  plan.rate_band.basis, plan.rate_band.basis == Basis::label ? "label" : practice});
  list.push_back(
      {"fogger flow",
       fmt::format("{} ({} to {})", show(plan.calibration.flow, units),
                   show(plan.calibration.low, units, Rounding::down),
                   show(plan.calibration.high, units, Rounding::up)),
       plan.calibration.basis,
       plan.calibration.basis == Basis::estimated ? "10 to 12 jobs a US gallon (common practice, no source), a "
                                                    "job taken as 2,400 sq ft (our assumption)"
       : plan.calibration.basis == Basis::measured ? fmt::format("{} catch tests", plan.calibration.runs)
                                                   : "as entered"});
  list.push_back({"reserve in the load", per_cent(request.reserve), Basis::policy, "company policy"});
}

void about_building(std::vector<Assumption>& list, const PlanRequest& request, const Plan& plan,
                    UnitSystem units) {
  if (request.gross_volume)
    list.push_back({"building volume", show(*request.gross_volume, units), Basis::measured, "as entered"});
  else
    list.push_back({"ceiling height", show(request.ceiling, units),
                    request.ceiling_given ? Basis::entered : Basis::assumed,
                    request.ceiling_given ? "as entered" : "usual US ceiling (from memory)"});
  list.push_back({"free share of the volume", show_number(plan.zone.free_fraction, 2), Basis::assumed,
                  "furnished rooms 0.89 +/- 0.05 (Virginia Tech thesis 10919/83384)"});
  list.push_back(
      {"ventilation while closed", show(plan.zone.closed, Rounding::nearest),
       request.closed_air_changes_given ? Basis::entered : Basis::assumed,
       request.closed_air_changes_given
           ? "as entered"
           : "10th percentile of US homes, EPA Exposure Factors Handbook 2011 ch. 19 (from memory)"});
  list.push_back({"ventilation while airing out",
                  plan.zone.airing ? show(*plan.zone.airing, Rounding::nearest) : "none planned",
                  plan.zone.airing ? Basis::entered : Basis::assumed, plan.zone.airing ? "as entered" : ours});
  list.push_back(
      {"mixing factor", show_number(plan.zone.mixing_factor, 3), Basis::assumed,
       "1 is perfect mixing; MMWR 1994;43(RR-13) Table S3-1 names up to 10 for very poor distribution"});
}

void about_air(std::vector<Assumption>& list, const Plan& plan) {
  list.push_back({"share of the active released", "all of it", Basis::assumed, ours});
  list.push_back(
      {"release", "at once at fog-off, and evenly over the off-gassing time; the longer hold governs",
       Basis::assumed, "a published 87 m3 room test saw its peak 2 to 3 h after release (PMC4976244)"});
  bool any_loss = false;
  for (const Active& active : plan.label->actives)
    if (active.loss_per_hour) {
      any_loss = true;
      list.push_back({fmt::format("loss of {}", active.name), fmt::format("{} per hour", *active.loss_per_hour),
                      Basis::label, active.loss_source});
    }
  if (!any_loss) list.push_back({"reaction and deposition", "no credit", Basis::assumed, ours});
  list.push_back({"occupant limit", fmt::format("lowest 8 h limit / {}", plan.zone.occupant_factor),
                  Basis::policy, "company policy; a limit on the label outranks it"});
  list.push_back({"haze",
                  fmt::format("droplets {} um, residue {} um",
                              show_number(plan.air.haze.droplet_diameter.value_in(unit::micrometre), 2),
                              show_number(plan.air.haze.residue_diameter.value_in(unit::micrometre), 2)),
                  plan.air.haze.diameter_basis, "stirred settling, Hinds ch. 3 (from memory)"});
}

}  // namespace

std::vector<Assumption> assumptions(const PlanRequest& request, const Plan& plan, UnitSystem units) {
  std::vector<Assumption> list;
  about_dose(list, request, plan, units);
  about_building(list, request, plan, units);
  about_air(list, plan);
  return list;
}

}  // namespace fogwright
