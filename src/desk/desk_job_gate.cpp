// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>

#include "desk/checks.hpp"
#include "desk/job_books.hpp"
#include "desk/job_gate.hpp"
#include "desk/job_hold.hpp"
#include "desk/job_items.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// Nobody is kept out any more, or never was.
bool is_over(const json& job) {
  const JobState state = state_of(job);
  return state == JobState::released || state == JobState::closed ||
         (state == JobState::stopped && !is_stopped_in_fog(job));
}

Result<Need> find_need(const json& job, const std::string& id) {
  if (auto need = need_of(job, id)) return std::move(*need);
  std::string ids;
  for (const Need& need : needs_of(job)) ids += (ids.empty() ? "" : ", ") + need.id;
  return fail(ErrorCode::not_found, fmt::format("the job has no item \"{}\"", id), {}, "known: " + ids);
}

/// What can be met when: nothing before fogging after it has begun, nothing while fogging before it has, and
/// nobody has aired out while the fogger runs.
bool can_be_met(Stage stage, JobState state) {
  const bool before = state == JobState::planned || state == JobState::cleared;
  switch (stage) {
    case Stage::before_mixing:
    case Stage::before_fogging:
      return before;
    case Stage::before_release:
      return state == JobState::holding || state == JobState::stopped;
    case Stage::during_fogging:
    case Stage::before_close:
      return !before && state != JobState::closed;
  }
  return false;
}

Result<void> check_stage(const json& job, const Need& need) {
  const JobState state = state_of(job);
  if (need.rule && can_be_met(need.rule->stage, state)) return {};
  return fail(ErrorCode::wrong_state,
              fmt::format("{} cannot be met in a job that is {}", need.id, job_state_name(state)), need.id,
              "what happened otherwise is written down with fogwright job record");
}

/// Nobody goes in to look or to open a window before the part of the hold that nothing shortens is over: what
/// is answered earlier cannot be so. Airing that the hold was reckoned with runs until the release.
Result<void> check_hold_lets_in(const DeskContext& context, const json& job, const Need& need) {
  if (!need.rule || need.rule->stage != Stage::before_release) return {};
  const auto hold = hold_state(job, moment_of(context));
  if (!hold) return {};
  if (hold->elapsed_ms < hold->floor_ms) {
    const std::int64_t left = up_to_minute(hold->floor_ms - hold->elapsed_ms) / 60'000;
    return fail(ErrorCode::hold_running,
                fmt::format("{} can be met in {} min, when the part of the hold that nothing shortens is over",
                            need.id, left),
                need.id, "keep everyone out until then");
  }
  if (need.id == "aired-out-as-planned" && !hold->ready)
    return fail(ErrorCode::hold_running, fmt::format("{} can be met when the hold is over", need.id), need.id,
                "keep the fan running until then");
  return {};
}

json met_body(const DeskContext& context, const json& job, const Need& need, json evidence) {
  return {{"job", job.at("job")},
          {"requirement", need.id},
          {"by", context.actor},
          {"evidence", std::move(evidence)},
          {"at_ms", context.now_ms}};
}

/// A job that was given up has booked its cartridge: what was worn beyond that is booked when it is told.
void add_wear_told_late(const DeskContext& context, const json& job, const json& evidence, Drafts& drafts) {
  const CartridgeWear worn = not_booked(
      job, {evidence.at("cartridge").get<std::string>(), evidence.at("minutes").get<std::int64_t>()});
  if (state_of(job) == JobState::stopped && !worn.cartridge.empty() && worn.minutes > 0)
    drafts.push_back(cartridge_used(context, job, worn));
}

/// Whether an item can still lapse: after the fog began of those before it only what somebody's entering ends,
/// and nothing once the building is released.
bool can_lapse(const Rule& rule, JobState state) {
  const bool before_fog = rule.stage == Stage::before_mixing || rule.stage == Stage::before_fogging;
  switch (state) {
    case JobState::planned:
    case JobState::cleared:
      return true;
    case JobState::fogging:
    case JobState::holding:
    case JobState::stopped:
      return !before_fog || rule.lapse == Lapse::when_someone_enters;
    case JobState::released:
      return rule.stage == Stage::before_close;
    case JobState::closed:
      return false;
  }
  return false;
}

LocalDay today_of(const DeskContext& context, const json& job, const Calendar& calendar) {
  return calendar(job.at("zone").get<std::string>(), context.now_ms);
}

Result<void> check_technician(const DeskContext& context, const json& job) {
  const std::string technician = job.at("technician");
  if (context.actor == technician) return {};
  return fail(ErrorCode::not_permitted,
              fmt::format("the gate of this job was met for {}, not for {}", technician, context.actor), "--by",
              "plan the job for the person who does it");
}

}  // namespace

Result<Drafts> meet_requirement(const DeskContext& context, const std::string& id,
                                const std::string& requirement, const std::string& typed,
                                const Calendar& calendar, const std::string& photo_digest) {
  if (auto ok = may_make(context, "requirement-met"); !ok) return tl::make_unexpected(ok.error());
  const auto job = find_job(context.documents, id);
  if (!job) return tl::make_unexpected(job.error());
  const auto need = find_need(*job, requirement);
  if (!need) return tl::make_unexpected(need.error());
  if (decided_by_facts(need->id))
    return fail(ErrorCode::wrong_state, fmt::format("{} is decided by what the job records", need->id),
                need->id, "nothing is left to do");
  if (auto ok = first_error({check_stage(*job, *need), check_hold_lets_in(context, *job, *need)}); !ok)
    return tl::make_unexpected(ok.error());
  const LocalDay today = today_of(context, *job, calendar);
  const GateView view{context.documents, *job, context.now_ms, today};
  auto evidence = read_evidence(view, *need, typed);
  if (!evidence) return tl::make_unexpected(evidence.error());
  if (auto fault = evidence_fault(view, *need, *evidence))
    return fail(ErrorCode::gate_closed, fmt::format("{} is not met: {}", need->id, *fault), need->id,
                "put it right, or leave the item open");
  if (!photo_digest.empty()) (*evidence)["photo"] = photo_digest;
  Drafts drafts;
  if (need->id == "cartridge-hours-added") add_wear_told_late(context, *job, *evidence, drafts);
  drafts.insert(drafts.begin(),
                draft(context, "requirement-met", met_body(context, *job, *need, std::move(*evidence))));
  return drafts;
}

Result<Drafts> lapse_requirement(const DeskContext& context, const std::string& id,
                                 const std::string& requirement, const std::string& why) {
  if (auto ok = first_error({may_make(context, "requirement-lapsed"), check_words(why, "the reason", "--why")});
      !ok)
    return tl::make_unexpected(ok.error());
  const auto job = find_job(context.documents, id);
  if (!job) return tl::make_unexpected(job.error());
  const auto need = find_need(*job, requirement);
  if (!need) return tl::make_unexpected(need.error());
  if (need->rule && !can_lapse(*need->rule, state_of(*job)))
    return fail(ErrorCode::wrong_state,
                fmt::format("{} cannot lapse in a job that is {}", need->id, job_state_name(state_of(*job))),
                need->id, "nothing is left to do");
  return Drafts{draft(context, "requirement-lapsed", {{"job", id}, {"requirement", need->id}, {"why", why}})};
}

Result<Drafts> lapse_all(const DeskContext& context, const std::string& id, Lapse lapse,
                         const std::string& why) {
  if (auto ok = first_error({may_make(context, "requirement-lapsed"), check_words(why, "the reason", "--why")});
      !ok)
    return tl::make_unexpected(ok.error());
  const auto job = find_job(context.documents, id);
  if (!job) return tl::make_unexpected(job.error());
  const JobState state = state_of(*job);
  if (is_over(*job))
    return fail(ErrorCode::wrong_state, fmt::format("job {} is {}", id, job_state_name(state)), {},
                "nothing is left to do");
  Drafts drafts;
  for (const Need& need : needs_of(*job))
    if (need.rule && need.rule->lapse == lapse && met_of(*job, need.id) && can_lapse(*need.rule, state))
      drafts.push_back(
          draft(context, "requirement-lapsed", {{"job", id}, {"requirement", need.id}, {"why", why}}));
  if (drafts.empty())
    return fail(ErrorCode::wrong_state, "nothing that lapses by this is met", {}, "nothing is left to do");
  return drafts;
}

Result<Drafts> clear_job(const DeskContext& context, const std::string& id, const Calendar& calendar) {
  if (auto ok = may_make(context, "job-cleared"); !ok) return tl::make_unexpected(ok.error());
  const auto job = find_job(context.documents, id);
  if (!job) return tl::make_unexpected(job.error());
  if (const auto next = check_step(*job, JobStep::clear); !next) return tl::make_unexpected(next.error());
  const auto missing =
      missing_for_start(context.documents, *job, context.now_ms, today_of(context, *job, calendar));
  if (!missing.empty()) return tl::make_unexpected(gate_error(*job, missing));
  return Drafts{draft(context, "job-cleared", {{"job", id}})};
}

Result<Decision> start_job(const DeskContext& context, const std::string& id, const Calendar& calendar) {
  if (auto ok = may_make(context, "fog-started"); !ok) return tl::make_unexpected(ok.error());
  const auto job = find_job(context.documents, id);
  if (!job) return tl::make_unexpected(job.error());
  const bool planned = state_of(*job) == JobState::planned;
  if (const auto next = check_step(*job, planned ? JobStep::clear : JobStep::start); !next)
    return tl::make_unexpected(next.error());
  if (auto ok = check_technician(context, *job); !ok) return tl::make_unexpected(ok.error());
  const LocalDay today = today_of(context, *job, calendar);
  auto missing = missing_for_start(context.documents, *job, context.now_ms, today);
  if (context.now_ms < job->at("last_ms").get<std::int64_t>())
    missing.push_back({"clock", "the clock stands before the job's last entry: set it"});
  std::optional<Error> refusal;
  if (!missing.empty()) refusal = gate_error(*job, missing);
  if (auto ok = products_may_meet(context.documents, *job); !ok) {
    missing.push_back({"nothing-else-in-tank", ok.error().message});
    refusal = ok.error();
  }
  if (refusal)
    return Decision{{draft(context, "start-refused", {{"job", id}, {"missing", missing_json(missing)}})},
                    refusal};
  Decision decision;
  if (planned) decision.drafts.push_back(draft(context, "job-cleared", {{"job", id}}));
  decision.drafts.push_back(draft(context, "fog-started",
                                  {{"job", id},
                                   {"clock", clock_json(context.clock)},
                                   {"day", today.date},
                                   {"day_began_ms", today.began_ms}}));
  return decision;
}

}  // namespace fogwright
