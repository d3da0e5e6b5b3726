// SPDX-License-Identifier: Apache-2.0
#include <cmath>

#include "fogwright/desk/crew.hpp"
#include "fogwright/desk/job.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr Unit<Dimension::area> square_millimetre{1e-6};
json band(const SecondsBand& seconds) { return json::array({seconds.low, seconds.high}); }

json system_snapshot(const SystemDose& system) {
  json returns = json::array();
  for (const ReturnDose& one : system.returns)
    returns.push_back({{"name", one.name}, {"seconds", one.seconds}, {"band_s", band(one.band)}});
  return {{"name", system.name},
          {"area_mm2", system.area.ceil_in(square_millimetre)},
          {"band_s", band(system.band)},
          {"target_s", system.target_seconds},
          {"returns", std::move(returns)}};
}

json hold_snapshot(const Hold& hold) {
  json out = {{"policy", hold.policy_minutes},
              {"haze", hold.haze_minutes},
              {"floor", hold.floor_minutes},
              {"total", hold.total_minutes},
              {"readings_needed", hold.readings_needed}};
  if (hold.label_minutes) out["label"] = *hold.label_minutes;
  if (hold.model_minutes) out["model"] = *hold.model_minutes;
  return out;
}

json respirator_snapshot(const RespiratorNeed& need) {
  return {{"required", need.required},
          {"facepiece", facepiece_word(need.facepiece)},
          {"factor", need.assigned_protection_factor},
          {"cartridges", need.cartridges},
          {"mixing", need.for_mixing},
          {"applying", need.for_applying},
          {"do_not_enter", need.do_not_enter}};
}

std::string substance_name(const AirResult& air, std::string_view cas) {
  for (const ActiveAir& active : air.actives) {
    if (active.substance && active.substance->cas == cas) return std::string(active.substance->name);
    if (active.active && active.active->released_cas.value_or(active.active->cas) == cas)
      return active.active->released_name.value_or(active.active->name);
  }
  return std::string(cas);
}

json limits_snapshot(const AirResult& air) {
  json list = json::array();
  for (const ReleaseLimit& limit : release_limits(air))
    list.push_back({{"cas", limit.cas},
                    {"name", substance_name(air, limit.cas)},
                    {"occupant_ug_m3", limit.value.floor_in(unit::microgram_per_cubic_metre)}});
  return list;
}

json names_of(const std::vector<Warning>& warnings) {
  json list = json::array();
  for (const Warning& warning : warnings) list.push_back(warning_name(warning.kind));
  return list;
}

}  // namespace

json plan_snapshot(const Plan& plan) {
  json systems = json::array();
  for (const SystemDose& system : plan.systems) systems.push_back(system_snapshot(system));
  json requirements = json::array();
  for (const Requirement& requirement : requirements_of(plan))
    requirements.push_back({{"id", requirement.rule->id}, {"value", requirement.value}});
  return {{"systems", std::move(systems)},
          {"volume_ul",
           {{"low", plan.volume.low.floor_in(unit::microlitre)},
            {"target", plan.volume.target.ceil_in(unit::microlitre)},
            {"high", plan.volume.high.ceil_in(unit::microlitre)}}},
          {"load_ul", plan.load.needed_microlitres},
          {"flow_ul_min", std::llround(plan.calibration.flow.value_in(unit::microlitre_per_minute))},
          {"flow_basis", basis_name(plan.calibration.basis)},
          {"hold_minutes", hold_snapshot(plan.hold)},
          {"governs", hold_ground_name(plan.hold.governs)},
          {"respirator", respirator_snapshot(plan.respirator)},
          {"requirements", std::move(requirements)},
          {"limits", limits_snapshot(plan.air)},
          {"estimable", plan.air.estimable},
          {"warnings", names_of(plan.warnings)}};
}

}  // namespace fogwright
