// SPDX-License-Identifier: Apache-2.0
#include "desk/job_document.hpp"

#include <fmt/format.h>

#include "desk/checks.hpp"

namespace fogwright {

using nlohmann::json;

std::vector<Need> needs_of(const json& job) {
  std::vector<Need> needs;
  for (const json& one : job.at("plan").at("requirements")) {
    Need need{one.at("id"), one.value("value", std::string()), nullptr};
    need.rule = find_rule(need.id);
    needs.push_back(std::move(need));
  }
  return needs;
}

std::optional<Need> need_of(const json& job, std::string_view id) {
  for (Need& need : needs_of(job))
    if (need.id == id) return std::move(need);
  return std::nullopt;
}

JobState state_of(const json& job) {
  return read_job_state(job.at("state").get<std::string>()).value_or(JobState::planned);
}

const json* met_of(const json& job, std::string_view id) {
  const json& met = job.at("met");
  const auto found = met.find(std::string(id));
  return found == met.end() ? nullptr : &*found;
}

std::string evidence_text(const json& job, std::string_view id, const char* member) {
  const json* met = met_of(job, id);
  return met ? met->at("evidence").value(member, std::string()) : std::string();
}

bool is_mixed(const json& job) { return need_of(job, "mix-time").has_value(); }

std::vector<std::string> containers_of(const json& job) {
  const json* met = met_of(job, "lot-noted");
  return met ? met->at("evidence").value("from", std::vector<std::string>()) : std::vector<std::string>();
}

std::vector<std::string> vessels_of(const json& job) {
  if (!is_mixed(job)) return containers_of(job);
  const std::string batch = evidence_text(job, "mix-time", "from");
  return batch.empty() ? std::vector<std::string>() : std::vector<std::string>{batch};
}

std::int64_t target_seconds(const json& job) {
  std::int64_t seconds = 0;
  for (const json& system : job.at("plan").at("systems")) seconds += system.at("target_s").get<std::int64_t>();
  return seconds;
}

Result<PlannedReturn> find_return(const json& job, std::string_view system, std::string_view name) {
  std::vector<PlannedReturn> found;
  std::string known;
  for (const json& one : job.at("plan").at("systems"))
    for (const json& planned : one.at("returns")) {
      const std::string in_full =
          fmt::format("{}: {}", one.at("name").get<std::string>(), planned.at("name").get<std::string>());
      known += (known.empty() ? "" : ", ") + in_full;
      const bool named = planned.at("name") == name && (system.empty() || one.at("name") == system);
      if (named || (system.empty() && in_full == name)) found.push_back({one.at("name"), planned});
    }
  if (found.size() == 1) return found.front();
  return fail(found.empty() ? ErrorCode::not_found : ErrorCode::missing_value,
              found.empty() ? fmt::format("the plan has no return \"{}\"", name)
                            : fmt::format("several systems have a return \"{}\"", name),
              "--system", "known: " + known);
}

std::int64_t fogged_ms(const json& job, std::string_view system, std::string_view name) {
  std::int64_t ms = 0;
  for (const json& one : job.at("returns"))
    if (one.at("system") == system && one.at("return") == name) ms += one.at("actual_ms").get<std::int64_t>();
  return ms;
}

std::int64_t used_by_time_ul(const json& job) {
  std::int64_t ms = 0;
  for (const json& one : job.at("returns")) ms += one.at("actual_ms").get<std::int64_t>();
  return (job.at("plan").at("flow_ul_min").get<std::int64_t>() * ms + 59'999) / 60'000;
}

std::int64_t fog_off_ms(const json& job) {
  const json& ended = job.at("fog_ended");
  return std::max(ended.at("ms").get<std::int64_t>(), ended.value("office_ms", std::int64_t{0}));
}

CartridgeWear cartridge_wear(const json& job) {
  for (const char* item : {"cartridge-hours-added", "cartridge-hours"})
    if (const json* met = met_of(job, item))
      return {met->at("evidence").value("cartridge", std::string()),
              met->at("evidence").value("minutes", std::int64_t{0})};
  return {};
}

bool is_live(const json& job) {
  const JobState state = state_of(job);
  if (state == JobState::stopped) return job.contains("fog_ended") && !job.contains("released");
  return state != JobState::closed;
}

bool is_stopped_in_fog(const json& job) {
  return state_of(job) == JobState::stopped && job.contains("fog_started") && !job.contains("released");
}

CartridgeWear not_booked(const json& job, CartridgeWear worn) {
  const std::int64_t booked = job.value("worn_booked", json::object()).value(worn.cartridge, std::int64_t{0});
  worn.minutes = std::max<std::int64_t>(0, worn.minutes - booked);
  return worn;
}

bool is_unbooked(const json& job) {
  const JobState state = state_of(job);
  return state == JobState::fogging || state == JobState::holding || state == JobState::released;
}

std::int64_t drawn_ul(const Documents& documents, const json& job) {
  std::int64_t ul = 0;
  if (const auto draws = documents.get("job-draws", job.at("job").get<std::string>()))
    for (const json& draw : draws->at("draws")) ul += draw.at("ul").get<std::int64_t>();
  return ul;
}

json clock_json(const BootClock& clock) { return {{"boot", clock.boot}, {"uptime_ms", clock.uptime_ms}}; }

json moment_json(const Moment& moment) { return {{"ms", moment.ms}, {"clock", clock_json(moment.clock)}}; }

Moment read_moment(const json& moment) { return moment_of(moment.at("ms").get<std::int64_t>(), moment); }

Moment moment_of(std::int64_t happened_ms, const json& body) {
  const json clock = body.value("clock", json::object());
  return {happened_ms, {clock.value("boot", std::string()), clock.value("uptime_ms", std::int64_t{0})}};
}

Moment moment_of(const DeskContext& context) { return {context.now_ms, context.clock}; }

Result<json> find_job(const Documents& documents, const std::string& id) {
  if (id.empty())
    return fail(ErrorCode::missing_value, "no job is named", {}, "fogwright job list shows the jobs");
  return find(documents, "job", id, {});
}

Result<JobState> check_step(const json& job, JobStep step) {
  static constexpr std::string_view needed[] = {"planned", "cleared", "fogging", "holding", "released", "open"};
  if (const auto next = next_state(state_of(job), step)) return *next;
  return fail(ErrorCode::wrong_state,
              fmt::format("job {} is {}; this step needs one that is {}", job.at("job").get<std::string>(),
                          job.at("state").get<std::string>(), needed[static_cast<std::size_t>(step)]),
              {}, fmt::format("fogwright job show {} tells what comes next", job.at("job").get<std::string>()));
}

}  // namespace fogwright
