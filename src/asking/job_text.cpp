// SPDX-License-Identifier: Apache-2.0
#include "asking/job_text.hpp"

#include <fmt/format.h>

#include "asking/zone_time.hpp"
#include "desk/job_hold.hpp"
#include "fogwright/gate.hpp"

namespace fogwright {

using nlohmann::json;

std::string item_words(const json& job, const std::string& item) {
  const Rule* rule = find_rule(item);
  if (!rule) return item;
  for (const json& one : job.at("plan").at("requirements"))
    if (one.at("id") == item) return requirement_words({rule, one.value("value", std::string())});
  return requirement_words({rule, {}});
}

std::string item_reason(const std::string& item) {
  const Rule* rule = find_rule(item);
  return rule ? fmt::format("{} ({})", rule->why, rule->citation) : "this program does not know the item";
}

std::string countdown_words(std::int64_t ms) {
  const std::int64_t s = (ms + 999) / 1'000;
  if (s >= 3'600) return fmt::format("{} h {:02} min {:02} s", s / 3'600, s / 60 % 60, s % 60);
  if (s >= 60) return fmt::format("{} min {:02} s", s / 60, s % 60);
  return fmt::format("{} s", s);
}

std::string hold_words(const json& job, const HoldState& hold, std::int64_t now_ms) {
  if (hold.ready) return "The hold is over.";
  const bool floor_runs = hold.elapsed_ms < hold.floor_ms;
  if (!floor_runs && hold.readings_needed) return "Only readings can release the building.";
  const std::int64_t left = (floor_runs ? hold.floor_ms : hold.total_ms) - hold.elapsed_ms;
  // The time passed, but a reading speaks against it.
  if (left <= 0) return hold.ready.error().message + ".";
  return fmt::format("{} left, until {}: nobody goes in{}.", countdown_words(left),
                     local_time(job.at("zone").get<std::string>(), up_to_minute(now_ms + left)),
                     floor_runs && hold.total_ms > hold.floor_ms ? " (then by readings, or longer)" : "");
}

std::string next_words(const json& job) {
  const std::string id = job.at("job");
  switch (read_job_state(job.at("state").get<std::string>()).value_or(JobState::planned)) {
    case JobState::planned:
    case JobState::cleared:
      return fmt::format("Next: meet what is open (job check, job run), then fogwright job start {}.", id);
    case JobState::fogging:
      return fmt::format("Next: time each return (job fogged), then fogwright job fog-off {}.", id);
    case JobState::holding:
      return fmt::format("Next: air out when the label allows it, wait, then fogwright job release {}.", id);
    case JobState::released:
      return fmt::format("Next: put everything back, then fogwright job close {}.", id);
    case JobState::closed:
      return "The job is done.";
    case JobState::stopped:
      return job.contains("fog_ended") && !job.contains("released")
                 ? fmt::format("Stopped, but fog was let out: nobody goes in before fogwright job release {}.",
                               id)
                 : "The job was stopped.";
  }
  return {};
}

}  // namespace fogwright
