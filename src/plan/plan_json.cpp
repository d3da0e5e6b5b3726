// SPDX-License-Identifier: Apache-2.0
#include <cmath>
#include <nlohmann/json.hpp>

#include "fogwright/plan.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

template <class T, class F>
json or_null(const std::optional<T>& value, F figure) {
  return value ? json(figure(*value)) : json(nullptr);
}
json or_null(const std::optional<std::int64_t>& value) { return value ? json(*value) : json(nullptr); }

json mg_m3(MassConcentration c) { return c.value_in(unit::milligram_per_cubic_metre); }

/// Whole minutes, rounded up; null where the air never clears.
json minutes(HoldTime time) { return time.is_finite() ? json(time.ceil_in(unit::minute)) : json(nullptr); }

json two_releases(const TimeToLimit& time) {
  return {{"at_once", minutes(time.at_once)}, {"off_gassing", minutes(time.off_gassing)}};
}

json band(const SecondsBand& seconds) { return json::array({seconds.low, seconds.high}); }

json system_json(const SystemDose& system) {
  json returns = json::array();
  for (const ReturnDose& one : system.returns)
    returns.push_back({{"name", one.name}, {"seconds", one.seconds}, {"band_seconds", band(one.band)}});
  return {{"name", system.name},
          {"area_ft2", system.area.value_in(unit::square_foot)},
          {"band_seconds", band(system.band)},
          {"target_seconds", system.target_seconds},
          {"returns", returns}};
}

json limit_json(const std::optional<GoverningLimit>& limit) {
  return or_null(limit, [](const GoverningLimit& l) { return mg_m3(l.value); });
}
json limit_source(const std::optional<GoverningLimit>& limit) {
  return or_null(
      limit, [](const GoverningLimit& l) { return std::string(l.authority) + "; " + std::string(l.source); });
}

json active_json(const ActiveAir& air) {
  const std::string name = air.active->released_name.value_or(air.active->name);
  return {{"name", name},
          {"cas", air.active->released_cas.value_or(air.active->cas)},
          {"estimable", air.estimable},
          {"released_mg", air.released.value_in(unit::milligram)},
          {"peak_mg_m3", mg_m3(air.peak)},
          {"peak_ppm", air.peak_ppm},
          {"peak_meter_ppm", air.peak_meter_ppm},
          {"worker_limit_mg_m3", limit_json(air.worker)},
          {"worker_limit_source", limit_source(air.worker)},
          {"short_term_limit_mg_m3", limit_json(air.short_term)},
          {"ceiling_limit_mg_m3", limit_json(air.ceiling)},
          {"idlh_mg_m3", limit_json(air.immediately_dangerous)},
          {"idlh_source", limit_source(air.immediately_dangerous)},
          {"above_idlh", air.above_immediately_dangerous},
          {"occupant_limit_mg_m3", or_null(air.occupant, mg_m3)},
          {"occupant_limit_basis", basis_name(air.occupant_basis)},
          {"hazard_ratio", air.hazard_ratio},
          {"minutes_to_worker_limit", or_null(air.to_worker, two_releases)},
          {"minutes_to_occupant_limit", or_null(air.to_occupant, two_releases)}};
}

json haze_json(const Haze& haze) {
  return {{"droplets_mg_m3", mg_m3(haze.droplets)},
          {"residue_mg_m3", mg_m3(haze.residue)},
          {"limit_mg_m3", mg_m3(haze.limit)},
          {"minutes", {{"droplets", minutes(haze.droplet_time)}, {"residue", minutes(haze.residue_time)}}}};
}

json flammable_json(const Flammable& fire) {
  if (!fire.present) return {{"present", false}};
  return {{"present", true},
          {"share_house", fire.share_house},
          {"share_duct", or_null(fire.share_duct, [](double share) { return share; })},
          {"seconds_to_tenth_fan_off", fire.seconds_to_tenth_fan_off},
          {"least_airflow_m3_h", fire.least_airflow.value_in(unit::cubic_metre_per_hour)},
          {"plan_limit_exceeded", fire.plan_limit_exceeded},
          {"stop_limit_exceeded", fire.stop_limit_exceeded}};
}

json moisture_json(const Moisture& moisture) {
  return {{"relative_humidity_before", moisture.relative_humidity_before},
          {"relative_humidity_after", moisture.relative_humidity_after},
          {"dew_point_after_c", moisture.dew_point_after.in_celsius()},
          {"condensate_g", moisture.condensate.value_in(unit::gram)},
          {"wets_coldest_surface", or_null(moisture.wets_coldest_surface, [](bool wet) { return wet; })}};
}

json air_json(const Plan& plan) {
  json actives = json::array();
  for (const ActiveAir& active : plan.air.actives) actives.push_back(active_json(active));
  return {{"gross_volume_m3", plan.air.gross.value_in(unit::cubic_metre)},
          {"free_volume_m3", plan.air.free.value_in(unit::cubic_metre)},
          {"estimable", plan.air.estimable},
          {"actives", actives},
          {"mixture_index", plan.air.mixture_index},
          {"minutes_to_mixture_limit", or_null(plan.air.to_mixture_occupant, two_releases)},
          {"model_minutes", {{"low_case", minutes(plan.cases.low)}, {"high_case", minutes(plan.cases.high)}}},
          {"haze", haze_json(plan.air.haze)},
          {"flammable", flammable_json(plan.air.flammable)},
          {"moisture", moisture_json(plan.air.moisture)}};
}

json respirator_json(const RespiratorNeed& need) {
  return {{"required", need.required},
          {"facepiece", facepiece_name(need.facepiece)},
          {"assigned_protection_factor", need.assigned_protection_factor},
          {"cartridges", need.cartridges},
          {"band_colour", need.band_colour},
          {"for_mixing", need.for_mixing},
          {"for_applying", need.for_applying},
          {"do_not_enter", need.do_not_enter}};
}

json hold_json(const Hold& hold) {
  return {{"label", or_null(hold.label_minutes)},
          {"policy", hold.policy_minutes},
          {"model", or_null(hold.model_minutes)},
          {"model_never_clears", hold.model_never_clears},
          {"readings_needed", hold.readings_needed},
          {"haze", hold.haze_minutes},
          {"governs", hold_ground_name(hold.governs)},
          {"total", hold.total_minutes},
          {"floor", hold.floor_minutes}};
}

json requirements_json(const Plan& plan) {
  json list = json::array();
  for (const Requirement& requirement : requirements_of(plan))
    list.push_back({{"id", requirement.rule->id},
                    {"words", requirement_words(requirement)},
                    {"why", requirement.rule->why},
                    {"basis", basis_name(requirement.rule->basis)},
                    {"citation", requirement.rule->citation}});
  return list;
}

json warnings_json(const Plan& plan) {
  json list = json::array();
  for (const Warning& warning : plan.warnings)
    list.push_back(
        {{"id", warning_name(warning.kind)}, {"words", warning_words(warning, UnitSystem::us_customary)}});
  return list;
}

json assumptions_json(const PlanRequest& request, const Plan& plan) {
  json list = json::array();
  for (const Assumption& one : assumptions(request, plan, UnitSystem::us_customary))
    list.push_back(
        {{"what", one.what}, {"value", one.value}, {"basis", basis_name(one.basis)}, {"source", one.source}});
  return list;
}

/// An inverse question's answer, or why there is none.
template <class T, class F>
json answer(const Result<T>& result, F figure) {
  if (result) return figure(*result);
  return {{"none", result.error().message}, {"hint", result.error().hint}};
}

void add_inverse(json& out, const Plan& plan) {
  if (plan.airing_for_deadline)
    out["airing_for_deadline"] = answer(*plan.airing_for_deadline, [](const AiringNeed& need) -> json {
      return {{"air_changes_per_hour", need.air_changes.value_in(unit::per_hour)},
              {"airflow_m3_h", need.airflow.value_in(unit::cubic_metre_per_hour)}};
    });
  if (plan.volume_for_deadline)
    out["volume_for_deadline"] = answer(*plan.volume_for_deadline, [](const LiquidVolume& volume) -> json {
      return {{"volume_ml", volume.floor_in(unit::millilitre)}};
    });
}

}  // namespace

json plan_json(const PlanRequest& request, const Plan& plan) {
  const Label& label = *plan.label;
  json systems = json::array();
  for (const SystemDose& system : plan.systems) systems.push_back(system_json(system));
  json out = {{"label",
               {{"name", label.name},
                {"strength_class", strength_name(label.strength)},
                {"registration", label.registration},
                {"signal_word", signal_word_name(label.signal_word)}}},
              {"split", split_rule_name(plan.split)},
              {"rate",
               {{"band_s_per_1000_ft2", {plan.rate_band.low, plan.rate_band.high}},
                {"basis", basis_name(plan.rate_band.basis)}}},
              {"systems", systems},
              {"total_seconds", plan.total_seconds},
              {"volume_ml",
               {{"low", plan.volume.low.floor_in(unit::millilitre)},
                {"target", plan.volume.target.ceil_in(unit::millilitre)},
                {"high", plan.volume.high.ceil_in(unit::millilitre)}}},
              {"load_ml", plan.load.needed.ceil_in(unit::millilitre)},
              {"load",
               {{"fills", plan.load.fills},
                {"fill_ml", plan.load.fill_in(unit::millilitre)},
                {"liquid_kg", plan.load.liquid_mass.value_in(unit::kilogram)}}},
              {"flow",
               {{"ml_per_min", plan.calibration.flow.value_in(unit::millilitre_per_minute)},
                {"low_ml_per_min", plan.calibration.low.value_in(unit::millilitre_per_minute)},
                {"high_ml_per_min", plan.calibration.high.value_in(unit::millilitre_per_minute)},
                {"basis", basis_name(plan.calibration.basis)}}},
              {"air", air_json(plan)},
              {"respirator", respirator_json(plan.respirator)},
              {"hold_minutes", hold_json(plan.hold)},
              {"requirements", requirements_json(plan)},
              {"cautions", label.precautions},
              {"first_aid", label.first_aid},
              {"gear", {{"mixing", label.mixing_gear.items}, {"applying", label.applying_gear.items}}},
              {"warnings", warnings_json(plan)},
              {"assumptions", assumptions_json(request, plan)}};
  if (plan.spread)
    out["dose_spread"] = {{"mean", plan.spread->mean},
                          {"deviation", plan.spread->deviation},
                          {"low", plan.spread->low},
                          {"high", plan.spread->high}};
  add_inverse(out, plan);
  return out;
}

}  // namespace fogwright
