// SPDX-License-Identifier: Apache-2.0
#include "cli/job_run.hpp"

#include <fmt/format.h>
#include <ostream>

#include "asking/job_text.hpp"
#include "asking/zone_time.hpp"
#include "cli/desk_call.hpp"
#include "desk/job_document.hpp"

namespace fogwright {

using nlohmann::json;

Result<json> JobRun::job() const {
  Result<json> found = json();
  store_.read([&](const Documents& now, const Head&) { found = find_job(now, id_); });
  return found;
}

Outcome JobRun::walk() {
  const auto at_first = job();
  if (!at_first) return refuse(at_first.error());
  Walk went = take_up(*at_first);
  while (went && *went == Went::on) {
    const auto current = job();
    if (!current) return refuse(current.error());
    const JobState state = state_of(*current);
    const bool in_fog = current->contains("fog_ended") && !current->contains("released");
    if (state == JobState::closed || (state == JobState::stopped && !in_fog)) {
      say(next_words(*current), true);
      return {};
    }
    went = part(*current);
  }
  if (!went) return tl::make_unexpected(went.error());
  say(fmt::format("Left here. fogwright job run {} goes on from this point.", id_));
  return {};
}

Walk JobRun::part(const json& job) {
  switch (state_of(job)) {
    case JobState::planned:
    case JobState::cleared:
      return gate(job);
    case JobState::fogging:
      return fog(job);
    case JobState::holding:
    case JobState::stopped:
      return hold(job);
    case JobState::released:
    case JobState::closed:
      return put_back(job);
  }
  return Went::left;
}

Walk JobRun::gate(const json& job) {
  say(fmt::format("Job {}: {}, {}. Answer each item; Enter or no leaves it open for later.", id_,
                  job.at("product").get<std::string>(), job.at("technician").get<std::string>()),
      true);
  for (const Stage stage : {Stage::before_mixing, Stage::before_fogging})
    if (ask_items(stage) == Went::left) return Went::left;
  auto typed = ask("Start the fog? Type start");
  if (!typed) return Went::left;
  if (*typed != "start") return Went::left;
  // The desk decides, whatever was asked above; a refusal stands in the book.
  const auto started = submit_decision(
      call_, store_, [&](const DeskContext& context) { return start_job(context, id_, system_calendar()); });
  if (!started) return tl::make_unexpected(started.error());
  return Went::on;
}

Walk JobRun::put_back(const json& job) {
  for (const Stage stage : {Stage::during_fogging, Stage::before_close})
    if (ask_items(stage) == Went::left) return Went::left;
  const auto closed = submit(
      call_, store_, [&](const DeskContext& context) { return close_job(context, id_, system_calendar()); });
  if (!closed) return tl::make_unexpected(closed.error());
  say(fmt::format("Closed. Used: {}.", volume_text(job.value("used_ul", std::int64_t{0}), call_.style.units)),
      true);
  return Went::on;
}

Outcome run_job_run(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the job");
  if (options.fault()) return refuse(*options.fault());
  if (call.json)
    return refuse({ErrorCode::bad_usage, "job run talks to a person; it has no JSON", "--json",
                   "use the single steps: job check, start, fogged, fog-off, release, close"});
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  return JobRun(call, **store, options.operand()).walk();
}

}  // namespace fogwright
