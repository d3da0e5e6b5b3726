// SPDX-License-Identifier: Apache-2.0
#include "plan/warnings.hpp"

#include <fmt/format.h>
#include <cmath>

namespace fogwright {
namespace {

/// A model hold beyond this is worth pointing out: airing out or readings shorten the wait.
constexpr std::int64_t long_hold_minutes = 240;

class WarningList {
 public:
  WarningList() { warnings_.reserve(8); }  // more than a plan usually has
  void add_if(bool condition, WarningKind kind, double value = 0, std::string_view subject = {}) {
    if (condition) warnings_.push_back({kind, value, std::string(subject)});
  }
  [[nodiscard]] std::vector<Warning> take() && { return std::move(warnings_); }

 private:
  std::vector<Warning> warnings_;
};

void warn_of_exposure(WarningList& list, const PlanRequest& request, const Plan& plan) {
  for (const ActiveAir& active : plan.air.actives)
    list.add_if(active.above_immediately_dangerous, WarningKind::do_not_enter, active.peak_ppm,
                active.active->name);
  list.add_if(!plan.air.estimable, WarningKind::not_estimable);
  list.add_if(plan.respirator.facepiece >= Facepiece::supplied_air, WarningKind::supplied_air);
  list.add_if(plan.hold.model_never_clears, WarningKind::never_clears);
  list.add_if(plan.hold.governs == HoldGround::model && plan.hold.total_minutes > long_hold_minutes,
              WarningKind::long_model_hold, static_cast<double>(plan.hold.total_minutes));
  list.add_if(
      plan.zone.airing && request.zone.airing_from && *request.zone.airing_from < *plan.zone.airing_from,
      WarningKind::airing_later, plan.zone.airing_from.value_or(HoldTime{}).value_in(unit::minute));
  list.add_if(plan.air.mixture_index > 1 && plan.air.actives.size() > 1, WarningKind::mixture,
              plan.air.mixture_index);
}

void warn_of_fire(WarningList& list, const Flammable& fire) {
  if (!fire.present) return;
  const double share = fire.share_duct.value_or(0) * 100;
  list.add_if(fire.stop_limit_exceeded, WarningKind::flammable_stop, share);
  list.add_if(fire.share_duct && fire.plan_limit_exceeded && !fire.stop_limit_exceeded,
              WarningKind::flammable_duct, share);
  list.add_if(!fire.share_duct, WarningKind::airflow_unproven, fire.seconds_to_tenth_fan_off);
}

void warn_of_dose(WarningList& list, const PlanRequest& request, const Plan& plan) {
  for (const SystemDose& system : plan.systems)
    list.add_if(system.short_share, WarningKind::short_share,
                static_cast<double>(request.limits.shortest_share_seconds), system.name);
  list.add_if(plan.calibration.basis == Basis::estimated, WarningKind::flow_estimated);
  list.add_if(plan.calibration.large_spread, WarningKind::calibration_spread,
              plan.calibration.relative_spread * 100);
  list.add_if(plan.load.fills > 1, WarningKind::tank_refills, plan.load.fills);
  list.add_if(plan.load.above_usual_fill, WarningKind::heavy_fill,
              plan.load.liquid_mass.value_in(unit::kilogram));
  list.add_if(plan.rate_band.basis == Basis::common_practice, WarningKind::rate_common_practice);
}

}  // namespace

std::vector<Warning> warnings_for(const PlanRequest& request, const Plan& plan) {
  WarningList list;
  warn_of_exposure(list, request, plan);
  warn_of_fire(list, plan.air.flammable);
  list.add_if(plan.air.moisture.condensate.si() > 0 || plan.air.moisture.wets_coldest_surface.value_or(false),
              WarningKind::condensation, plan.air.moisture.relative_humidity_after * 100);
  list.add_if(!plan.hold.label_minutes, WarningKind::label_silent_on_hold);
  warn_of_dose(list, request, plan);
  return std::move(list).take();
}

std::string_view warning_name(WarningKind kind) noexcept {
  switch (kind) {
    case WarningKind::do_not_enter:
      return "do-not-enter";
    case WarningKind::not_estimable:
      return "not-estimable";
    case WarningKind::supplied_air:
      return "supplied-air";
    case WarningKind::never_clears:
      return "never-clears";
    case WarningKind::long_model_hold:
      return "long-model-hold";
    case WarningKind::airing_later:
      return "airing-later";
    case WarningKind::mixture:
      return "mixture";
    case WarningKind::flammable_stop:
      return "flammable-stop";
    case WarningKind::flammable_duct:
      return "flammable-duct";
    case WarningKind::airflow_unproven:
      return "airflow-unproven";
    case WarningKind::condensation:
      return "condensation";
    case WarningKind::label_silent_on_hold:
      return "label-silent-on-hold";
    case WarningKind::short_share:
      return "short-share";
    case WarningKind::flow_estimated:
      return "flow-estimated";
    case WarningKind::calibration_spread:
      return "calibration-spread";
    case WarningKind::tank_refills:
      return "tank-refills";
    case WarningKind::heavy_fill:
      return "heavy-fill";
    case WarningKind::rate_common_practice:
      return "rate-common-practice";
  }
  return "";
}

std::string warning_words(const Warning& warning, UnitSystem units) {
  switch (warning.kind) {
    case WarningKind::do_not_enter:
      return fmt::format(
          "DO NOT ENTER after fogging: {} may reach {} ppm, above the level immediately dangerous to life or "
          "health. "
          "No cartridge respirator is enough. Use less product or another product.",
          warning.subject, show_number(warning.value, 2, Rounding::up));
    case WarningKind::not_estimable:
      return "The air inside cannot be estimated: the label hides a strength, or no exposure limit is "
             "published. "
             "Only the label and the data sheet can say when to go back in.";
    case WarningKind::supplied_air:
      return "No published cartridge recommendation covers this product: supplied air is needed, or the "
             "maker's "
             "written data.";
    case WarningKind::never_clears:
      return "Without airing out the model never reaches the occupant limit. Plan a measured fan "
             "(--purge-air-changes) "
             "or release on readings only.";
    case WarningKind::long_model_hold:
      return "The modelled clearing time is long. A measured exhaust fan (--purge-air-changes) shortens it; "
             "two readings "
             "at or below the limit may replace it.";
    case WarningKind::airing_later:
      return fmt::format(
          "Airing out counts from {} min after fog-off: nobody goes in before, and no fan shortens that part.",
          std::ceil(warning.value));
    case WarningKind::mixture:
      return fmt::format("The actives together reach {} times the combined worker limit.",
                         show_number(warning.value, 2, Rounding::up));
    case WarningKind::flammable_stop:
      return fmt::format(
          "STOP: vapor in the duct would reach {} % of its lower flammable limit. Do not fog with this flow "
          "and airflow.",
          show_number(warning.value, 2, Rounding::up));
    case WarningKind::flammable_duct:
      return fmt::format(
          "Vapor in the duct would reach {} % of its lower flammable limit; 10 % is the plan limit. Lower the "
          "flow or raise the airflow.",
          show_number(warning.value, 2, Rounding::up));
    case WarningKind::airflow_unproven:
      return fmt::format(
          "Flammable vapor: prove the airflow before the first second of fog. With the fan off the plenum "
          "reaches 10 % of the lower flammable limit in {} s.",
          show_number(warning.value, 2, Rounding::down));
    case WarningKind::condensation:
      return fmt::format("Humidity may reach {} % and wet cold duct surfaces. Warm the ducts or fog less.",
                         show_number(warning.value, 2, Rounding::up));
    case WarningKind::label_silent_on_hold:
      return "The label states no time to stay out: company policy and the model stand in. Ask the maker.";
    case WarningKind::short_share:
      return fmt::format(
          "{}: a return gets less than {} s, too short to work a valve. Fog fewer returns for longer.",
          warning.subject, warning.value);
    case WarningKind::flow_estimated:
      return "Nobody has measured this fogger: the volume is an estimate from the gallon rule (common "
             "practice, no "
             "source). Run three catch tests and give --flow.";
    case WarningKind::calibration_spread:
      return warning.value > 0 ? fmt::format(
                                     "The catch tests differ by {} % (or are fewer than three): measure again "
                                     "before relying on the volume.",
                                     show_number(warning.value, 2, Rounding::up))
                               : "Fewer than three catch tests: measure again before relying on the volume.";
    case WarningKind::tank_refills:
      return fmt::format("The tank must be filled {} times.", warning.value);
    case WarningKind::heavy_fill:
      return fmt::format(
          "One fill weighs {} of liquid; 1/3 to 1/2 US gal is usual (common practice, no source).",
          show(Mass{warning.value, unit::kilogram}, units, Rounding::up));
    case WarningKind::rate_common_practice:
      return "The label gives no rate: 45 to 60 s per 1,000 sq ft is common practice, no source.";
  }
  return {};
}

}  // namespace fogwright
