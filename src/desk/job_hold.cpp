// SPDX-License-Identifier: Apache-2.0
#include "desk/job_hold.hpp"

#include <algorithm>

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::int64_t minute_ms = 60'000;

std::optional<std::int64_t> minutes_in(const json& hold, const char* member) {
  return hold.contains(member) ? std::optional(hold.at(member).get<std::int64_t>()) : std::nullopt;
}

Hold read_hold(const json& plan) {
  const json& in = plan.at("hold_minutes");
  Hold hold;
  hold.label_minutes = minutes_in(in, "label");
  hold.policy_minutes = in.at("policy").get<std::int64_t>();
  hold.model_minutes = minutes_in(in, "model");
  hold.haze_minutes = in.at("haze").get<std::int64_t>();
  hold.floor_minutes = in.at("floor").get<std::int64_t>();
  hold.total_minutes = in.at("total").get<std::int64_t>();
  hold.readings_needed = in.at("readings_needed").get<bool>();
  hold.model_never_clears = !hold.model_minutes && hold.readings_needed;
  return hold;
}

MassConcentration micrograms(const json& value) {
  return {static_cast<double>(value.get<std::int64_t>()), unit::microgram_per_cubic_metre};
}

/// The views point into the plan.
std::vector<ReleaseLimit> recorded_limits(const json& plan) {
  std::vector<ReleaseLimit> limits;
  for (const json& one : plan.at("limits"))
    limits.push_back({one.at("cas").get_ref<const std::string&>(), micrograms(one.at("occupant_ug_m3"))});
  return limits;
}

/// When the fog ended, for who counts by this clock: beside the one that dated it the office's later time
/// stands.
Moment fog_off_for(const json& job, const BootClock& clock) {
  Moment moment = read_moment(job.at("fog_ended"));
  if (moment.clock.boot.empty() || moment.clock.boot != clock.boot) moment.ms = fog_off_ms(job);
  return moment;
}

/// Readings after fog-off; their times count as the hold's own time does. The views point into the job.
std::vector<Reading> read_readings(const json& job) {
  std::vector<Reading> readings;
  for (const json& one : job.at("readings"))
    readings.push_back({elapsed_ms(fog_off_for(job, read_moment(one).clock), read_moment(one)),
                        one.at("substance").get_ref<const std::string&>(), micrograms(one.at("ug_m3")),
                        one.at("fan_running").get<bool>(), one.at("seq").get<std::int64_t>()});
  return readings;
}

std::int64_t floor_ms_of(const Hold& hold) {
  return std::max(
             {hold.floor_minutes, hold.label_minutes.value_or(0), hold.policy_minutes, hold.haze_minutes}) *
         minute_ms;
}

}  // namespace

std::int64_t hold_floor_ms(const json& job) { return floor_ms_of(read_hold(job.at("plan"))); }

std::optional<HoldState> hold_state(const json& job, const Moment& now) {
  if (!job.contains("fog_ended")) return std::nullopt;
  const json& plan = job.at("plan");
  const Moment fog_off = fog_off_for(job, now.clock);
  const Hold hold = read_hold(plan);
  const auto limits = recorded_limits(plan);
  const auto readings = read_readings(job);
  HoldState state;
  state.elapsed_ms = elapsed_ms(fog_off, now);
  state.floor_ms = floor_ms_of(hold);
  state.total_ms = std::max(hold.total_minutes * minute_ms, state.floor_ms);
  state.readings_needed = hold.readings_needed;
  state.rebooted = fog_off.clock.boot != now.clock.boot;
  state.ready = release_ready(hold, limits, state.elapsed_ms, readings);
  state.by_time = release_ready(hold, limits, state.elapsed_ms, {}).has_value();
  return state;
}

std::int64_t clock_shift_ms(const Moment& from, const Moment& to) noexcept {
  if (from.clock.boot.empty() || from.clock.boot != to.clock.boot) return 0;
  return (to.ms - from.ms) - (to.clock.uptime_ms - from.clock.uptime_ms);
}

std::int64_t up_to_minute(std::int64_t ms) noexcept { return (ms + minute_ms - 1) / minute_ms * minute_ms; }

}  // namespace fogwright
