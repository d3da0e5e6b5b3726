// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>

#include "desk/checks.hpp"
#include "desk/job_books.hpp"
#include "desk/job_gate.hpp"
#include "desk/job_items.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

Result<void> check_times(const DeskContext& context, const LateRecord& record) {
  const bool in_order = record.started_ms <= record.ended_ms &&
                        (!record.released_ms || record.ended_ms <= *record.released_ms) &&
                        record.released_ms.value_or(record.ended_ms) <= context.now_ms;
  if (in_order && record.started_ms > 0) return {};
  return fail(ErrorCode::out_of_range, "start, end and release are not in this order before now", "--started",
              "check the times and the time zone");
}

const std::string* answer_to(const LateRecord& record, const std::string& item) {
  const std::string* typed = nullptr;
  for (const auto& [id, answer] : record.met)
    if (id == item) typed = &answer;
  return typed;
}

/// Each answer is read as at the gate: in the order of the plan, and by what the answers before it told.
Result<json> late_met(const DeskContext& context, json job, const LateRecord& record, const LocalDay& day) {
  for (const auto& [id, typed] : record.met)
    if (!need_of(job, id))
      return fail(ErrorCode::not_found, fmt::format("the job has no item \"{}\"", id), "--met",
                  "fogwright job show lists them");
  json met = json::object();
  for (const Need& need : needs_of(job)) {
    const std::string* typed = answer_to(record, need.id);
    if (!typed) continue;
    auto evidence = read_evidence({context.documents, job, record.started_ms, day}, need, *typed);
    if (!evidence) return evidence;
    job["met"][need.id] = {{"by", context.actor}, {"at_ms", record.started_ms}, {"evidence", *evidence}};
    met[need.id] = std::move(*evidence);
  }
  return met;
}

Result<json> late_returns(const json& job, const LateRecord& record) {
  json list = json::array();
  for (const LateRecord::Return& one : record.returns) {
    const auto planned = find_return(job, one.system, one.name);
    if (!planned) return fail(planned.error().code, planned.error().message, "--return", planned.error().hint);
    list.push_back(
        {{"system", planned->system}, {"return", planned->plan.at("name")}, {"actual_ms", one.actual_ms}});
  }
  return list;
}

}  // namespace

Result<Drafts> close_job(const DeskContext& context, const std::string& id, const Calendar& calendar) {
  if (auto ok = may_make(context, "job-closed"); !ok) return tl::make_unexpected(ok.error());
  const auto job = find_job(context.documents, id);
  if (!job) return tl::make_unexpected(job.error());
  if (const auto next = check_step(*job, JobStep::close); !next) return tl::make_unexpected(next.error());
  const LocalDay today = calendar(job->at("zone").get<std::string>(), context.now_ms);
  auto open = missing_in(context.documents, *job, Stage::during_fogging, context.now_ms, today);
  const auto late = missing_in(context.documents, *job, Stage::before_close, context.now_ms, today);
  open.insert(open.end(), late.begin(), late.end());
  if (!open.empty()) return tl::make_unexpected(gate_error(*job, open));
  const std::int64_t used_ul = job->value("used_ul", std::int64_t{0});
  Drafts drafts;
  draw_rest(context, *job, used_ul, drafts);
  add_cartridge_hours(context, *job, drafts);
  drafts.push_back(
      draft(context, "job-closed",
            {{"job", id}, {"used_ul", used_ul}, {"leave_behind", met_of(*job, "leave-behind") != nullptr}}));
  return drafts;
}

Result<Drafts> stop_job(const DeskContext& context, const std::string& id, const std::string& why) {
  if (auto ok = first_error({may_make(context, "job-stopped"), check_words(why, "the reason", "--why")}); !ok)
    return tl::make_unexpected(ok.error());
  const auto job = find_job(context.documents, id);
  if (!job) return tl::make_unexpected(job.error());
  if (const auto next = check_step(*job, JobStep::stop); !next) return tl::make_unexpected(next.error());
  // In mid-fog nobody has measured yet: by the time of the fog.
  const bool in_fog = state_of(*job) == JobState::fogging;
  Drafts drafts;
  draw_rest(context, *job, in_fog ? used_by_time_ul(*job) : job->value("used_ul", std::int64_t{0}), drafts);
  if (is_unbooked(*job)) add_cartridge_hours(context, *job, drafts);
  drafts.push_back(
      draft(context, "job-stopped", {{"job", id}, {"why", why}, {"clock", clock_json(context.clock)}}));
  return drafts;
}

Result<Drafts> record_job(const DeskContext& context, const std::string& id, const LateRecord& record,
                          const Calendar& calendar) {
  if (auto ok = first_error({may_make(context, "job-recorded"),
                             check_words(record.why_late, "why it was not recorded at the time", "--why"),
                             check_times(context, record)});
      !ok)
    return tl::make_unexpected(ok.error());
  const auto job = find_job(context.documents, id);
  if (!job) return tl::make_unexpected(job.error());
  const JobState state = state_of(*job);
  if (state != JobState::planned && state != JobState::cleared)
    return fail(ErrorCode::wrong_state, fmt::format("job {} is {} already", id, job_state_name(state)), {},
                "go on from there");
  const LocalDay day = calendar(job->at("zone").get<std::string>(), record.started_ms);
  auto met = late_met(context, *job, record, day);
  if (!met) return tl::make_unexpected(met.error());
  auto returns = late_returns(*job, record);
  if (!returns) return tl::make_unexpected(returns.error());
  json body = {{"job", id},
               {"why_late", record.why_late},
               {"started_ms", record.started_ms},
               {"ended_ms", record.ended_ms},
               {"day", day.date},
               {"day_began_ms", day.began_ms},
               {"returns", std::move(*returns)},
               {"met", std::move(*met)}};
  if (record.released_ms) body["released_ms"] = *record.released_ms;
  if (record.used_ul) body["used_ul"] = *record.used_ul;
  return Drafts{draft(context, "job-recorded", std::move(body))};
}

}  // namespace fogwright
