// SPDX-License-Identifier: Apache-2.0
#include "desk/more_fog.hpp"

#include <algorithm>
#include <cmath>

#include "desk/readable.hpp"
#include "fogwright/desk/replan.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

std::int64_t most_planned_ul(const json& job) { return job.at("plan").at("volume_ul").at("high"); }

/// The last second of each band counts to its end.
bool is_more_than_planned(const json& job, std::int64_t ul) {
  std::int64_t returns = 0;
  for (const json& system : job.at("plan").at("systems"))
    returns += static_cast<std::int64_t>(system.at("returns").size());
  const auto flow_ul_min = job.at("plan").at("flow_ul_min").get<std::int64_t>();
  return ul > most_planned_ul(job) + (flow_ul_min * returns + 59) / 60;
}

/// The air takes what the plan's calibration gives over the seconds of the band.
std::optional<json> planned_again(const Documents& documents, const json& job, double times) {
  auto made = replan(documents, job.at("job").get<std::string>());
  if (!made) return std::nullopt;
  Calibration calibration = made->plan.calibration;
  for (LiquidFlow* flow : {&calibration.flow, &calibration.low, &calibration.high}) *flow = *flow * times;
  made->request.calibration = calibration;
  if (!need_of(job, "aired-out-as-planned")) {  // nobody was told to air out
    made->request.zone.airing.reset();
    made->request.airing_fan.reset();
  }
  const auto plan = make_plan(made->request);
  if (!plan) return std::nullopt;
  const json snapshot = plan_snapshot(*plan);
  return json{{"hold_minutes", snapshot.at("hold_minutes")}, {"limits", snapshot.at("limits")}};
}

/// Air clears by a share an hour, so a time that grows with the volume is longer than it need be.
json stretched(const json& planned, const json& limits, double times) {
  json hold = planned;
  for (const char* part : {"model", "haze", "floor", "total"})
    if (hold.contains(part))
      hold[part] = static_cast<std::int64_t>(std::ceil(hold[part].get<double>() * times));
  hold["readings_needed"] = true;
  return {{"hold_minutes", std::move(hold)}, {"limits", limits}};
}

}  // namespace

std::int64_t let_out_ul(const json& job, std::int64_t used_ul) {
  return std::max(used_ul, used_by_time_ul(job));
}

std::optional<json> hold_of_more_fog(const Documents& documents, const json& job, std::int64_t used_ul) {
  const std::int64_t ul = let_out_ul(job, used_ul);
  if (!is_more_than_planned(job, ul)) return std::nullopt;
  const double times =
      static_cast<double>(ul) / static_cast<double>(std::max<std::int64_t>(1, most_planned_ul(job)));
  std::optional<json> again;
  if (why_unreadable([&] { again = planned_again(documents, job, times); }) || !again)
    return stretched(job.contains("hold_planned") ? job["hold_planned"] : job.at("plan").at("hold_minutes"),
                     job.at("plan").at("limits"), times);
  return again;
}

}  // namespace fogwright
