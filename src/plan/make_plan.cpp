// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <utility>

#include "fogwright/plan.hpp"
#include "plan/warnings.hpp"

namespace fogwright {
namespace {

constexpr Length lowest_ceiling{6, unit::foot};
constexpr Length highest_ceiling{60, unit::foot};

Result<void> check_request(const PlanRequest& request) {
  if (!request.label)
    return fail(ErrorCode::missing_value, "no product label is given", "--label",
                "name a profile, e.g. --label product_profiles_demo/fenmist-rtu.toml");
  if (auto allowed = may_fog_ducts(*request.label); !allowed) return allowed;
  if (request.systems.empty())
    return fail(ErrorCode::missing_value, "no air system is given", "--area",
                "give the floor area and the number of returns, e.g. --area 2400 --returns 3");
  for (const AirSystem& system : request.systems)
    if (auto allowed = may_fog_material(*request.label, system.material); !allowed) return allowed;
  if (!(request.ceiling >= lowest_ceiling && request.ceiling <= highest_ceiling))
    return fail(ErrorCode::out_of_range, "the ceiling height lies outside 6 to 60 ft (1.83 to 18.3 m)",
                "--ceiling",
                "give the average height of the conditioned rooms, or the measured air volume with --volume");
  return {};
}

AirVolume gross_volume(const PlanRequest& request) {
  if (request.gross_volume) return *request.gross_volume;
  FloorArea area{};
  for (const AirSystem& system : request.systems) area += system.area;
  return area * request.ceiling;
}

Result<void> dose(const PlanRequest& request, Plan& plan) {
  plan.rate_band = rate_band(*request.label);
  plan.split = request.split;
  plan.systems.reserve(request.systems.size());
  std::int64_t high_seconds = 0;
  for (const AirSystem& system : request.systems) {
    auto dosed = dose_system(system, plan.rate_band, request.rate, request.split, request.limits);
    if (!dosed) return tl::make_unexpected(std::move(dosed.error()));
    plan.total_seconds += dosed->target_seconds;
    high_seconds += dosed->band.high;
    plan.systems.push_back(std::move(*dosed));
  }
  plan.calibration = request.calibration ? *request.calibration : gallon_rule();
  plan.volume = fog_volume(plan.calibration, plan.total_seconds, high_seconds);
  auto load = route_load({&plan.volume.high, 1}, request.reserve, request.label->density, request.fogger);
  if (!load) return tl::make_unexpected(std::move(load.error()));
  plan.load = *load;
  return {};
}

AirInput air_input(const PlanRequest& request, const Plan& plan) {
  AirInput input;
  input.label = plan.label.get();
  input.volume = plan.volume.high;
  input.fog_time = FogTime{static_cast<double>(plan.total_seconds), unit::second};
  input.flow = plan.calibration.high;
  input.fan = request.fan;
  input.plenum = request.plenum;
  input.relative_humidity = request.relative_humidity;
  input.coldest_surface = request.coldest_surface;
  if (plan.entered_limits) input.entered_limits = *plan.entered_limits;
  return input;
}

/// When airing out can begin: nobody goes in before the part of the hold that nothing shortens is over, and
/// that part takes no airing for granted.
Result<HoldTime> earliest_airing(const PlanRequest& request, const Plan& plan, const AirInput& input) {
  Zone closed = plan.zone;
  closed.airing.reset();
  const auto air = air_after_fogging(closed, input);
  if (!air) return tl::make_unexpected(air.error());
  const Hold hold = hold_for(*plan.label, *air, request.policy);
  const HoldTime floor{static_cast<double>(hold.floor_minutes), unit::minute};
  return std::max(floor, plan.zone.airing_from.value_or(floor));
}

Result<void> breathe(const PlanRequest& request, Plan& plan) {
  plan.zone = request.zone;
  plan.zone.gross = gross_volume(request);
  plan.zone.ceiling = request.ceiling;
  // Air changes count over the free volume; over the gross volume they come out lower, and the hold longer.
  if (request.airing_fan) plan.zone.airing = *request.airing_fan / plan.zone.gross;
  const AirInput input = air_input(request, plan);
  if (plan.zone.airing || request.deadline) {
    const auto start = earliest_airing(request, plan, input);
    if (!start) return tl::make_unexpected(start.error());
    plan.zone.airing_from = *start;
  }
  CaseSpread spread;
  spread.volume_low = plan.volume.low;
  spread.volume_high = plan.volume.high;
  auto air = air_with_cases(plan.zone, input, spread);
  if (!air) return tl::make_unexpected(std::move(air.error()));
  plan.air = std::move(air->nominal);
  plan.cases = air->cases;
  if (request.deadline) plan.airing_for_deadline = airing_for_deadline(plan.zone, input, *request.deadline);
  if (request.fit_dose) plan.volume_for_deadline = volume_for_deadline(plan.zone, input, *request.fit_dose);
  return {};
}

GateFacts gate_facts(const Plan& plan) {
  return {*plan.label, plan.respirator, plan.hold, plan.air, plan.site};
}

Result<void> work_out(const PlanRequest& request, Plan& plan) {
  if (auto ok = check_request(request); !ok) return ok;
  plan.label = request.label;
  plan.entered_limits = request.entered_limits;
  if (auto ok = dose(request, plan); !ok) return ok;
  if (auto ok = breathe(request, plan); !ok) return ok;
  if (request.spread_draws > 0) {
    SpreadInput spread;
    spread.calibration = plan.calibration;
    spread.target_seconds = plan.total_seconds;
    plan.spread = dose_spread(spread, request.spread_draws);
  }
  plan.respirator = respirator_need(*plan.label, plan.air);
  plan.hold = hold_for(*plan.label, plan.air, request.policy);
  plan.site = request.site;
  plan.rules = rules_for(gate_facts(plan));
  plan.warnings = warnings_for(request, plan);
  return {};
}

}  // namespace

Result<Plan> make_plan(const PlanRequest& request) {
  Result<Plan> plan;
  if (auto ok = work_out(request, *plan); !ok) plan = tl::make_unexpected(std::move(ok.error()));
  return plan;
}

std::vector<Requirement> requirements_of(const Plan& plan) {
  std::vector<Requirement> all;
  all.reserve(plan.rules.size());
  for (const Rule* rule : plan.rules) all.push_back(requirement(*rule, gate_facts(plan)));
  return all;
}

}  // namespace fogwright
