// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <iterator>

#include "fogwright/desk/job.hpp"

namespace fogwright {
namespace {

constexpr std::string_view names[] = {"planned",  "cleared", "fogging", "holding",
                                      "released", "closed",  "stopped"};

struct Transition {
  JobState from;
  JobStep step;
  JobState to;
};
constexpr Transition transitions[] = {
    {JobState::planned, JobStep::clear, JobState::cleared},
    {JobState::cleared, JobStep::start, JobState::fogging},
    {JobState::fogging, JobStep::fog_off, JobState::holding},
    {JobState::holding, JobStep::release, JobState::released},
    {JobState::released, JobStep::close, JobState::closed},
    {JobState::planned, JobStep::stop, JobState::stopped},
    {JobState::cleared, JobStep::stop, JobState::stopped},
    {JobState::fogging, JobStep::stop, JobState::stopped},
    {JobState::holding, JobStep::stop, JobState::stopped},
    {JobState::released, JobStep::stop, JobState::stopped},
    // Fog that was let out is in the house whether or not the job goes on.
    {JobState::stopped, JobStep::release, JobState::stopped},
};

}  // namespace

std::string_view job_state_name(JobState state) noexcept { return names[static_cast<std::size_t>(state)]; }

std::optional<JobState> read_job_state(std::string_view name) noexcept {
  for (std::size_t i = 0; i < std::size(names); ++i)
    if (names[i] == name) return static_cast<JobState>(i);
  return std::nullopt;
}

std::optional<JobState> next_state(JobState from, JobStep step) noexcept {
  for (const Transition& t : transitions)
    if (t.from == from && t.step == step) return t.to;
  return std::nullopt;
}

std::int64_t elapsed_ms(const Moment& from, const Moment& to) noexcept {
  const std::int64_t calendar = to.ms - from.ms;
  const bool one_boot = !from.clock.boot.empty() && from.clock.boot == to.clock.boot;
  const std::int64_t counted =
      one_boot ? std::min(calendar, to.clock.uptime_ms - from.clock.uptime_ms) : calendar;
  return std::max<std::int64_t>(0, counted);
}

}  // namespace fogwright
