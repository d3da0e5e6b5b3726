// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <cmath>

#include "desk/checks.hpp"
#include "desk/job_books.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// A job whose fog runs, or that somebody gave up while it ran: who stands at the fogger tells the end of it.
/// What was still timed (`late`) when another device told the end is fog, too.
Result<json> fogging_job(const DeskContext& context, const std::string& id, bool late = false) {
  auto job = find_job(context.documents, id);
  if (!job || state_of(*job) == JobState::fogging || is_stopped_in_fog(*job)) return job;
  if (late && state_of(*job) == JobState::holding) return job;
  return fail(ErrorCode::wrong_state,
              fmt::format("job {} is {}, not {}", id, job_state_name(state_of(*job)),
                          job_state_name(JobState::fogging)),
              {}, fmt::format("fogwright job show {} tells what comes next", id));
}

}  // namespace

Result<Drafts> record_return(const DeskContext& context, const std::string& id, const std::string& system,
                             const std::string& name, std::int64_t actual_ms) {
  if (auto ok = may_make(context, "return-fogged"); !ok) return tl::make_unexpected(ok.error());
  const auto job = fogging_job(context, id, true);
  if (!job) return tl::make_unexpected(job.error());
  const auto planned = find_return(*job, system, name);
  if (!planned) return tl::make_unexpected(planned.error());
  if (actual_ms <= 0 || actual_ms > longest_stretch_ms)
    return fail(ErrorCode::out_of_range, "a stretch of fog is more than zero and at most 6 h", "--time",
                "write the seconds that the valve was open, e.g. --time '42 s'");
  Drafts drafts{draft(context, "return-fogged",
                      {{"job", id},
                       {"system", planned->system},
                       {"return", planned->plan.at("name")},
                       {"planned_s", planned->plan.at("seconds")},
                       {"actual_ms", actual_ms},
                       {"clock", clock_json(context.clock)}})};
  if (state_of(*job) != JobState::stopped) return drafts;  // it is drawn when the job is closed
  json with_it = *job;
  with_it["returns"].push_back({{"actual_ms", actual_ms}});
  draw_rest(context, *job, used_by_time_ul(with_it), drafts);
  return drafts;
}

Result<Drafts> end_fog(const DeskContext& context, const std::string& id, const FogOff& off) {
  if (auto ok = may_make(context, "fog-ended"); !ok) return tl::make_unexpected(ok.error());
  const auto job = fogging_job(context, id);
  if (!job) return tl::make_unexpected(job.error());
  json body = {{"job", id}, {"clock", clock_json(context.clock)}};
  const json* before = met_of(*job, "volume-before");
  if (off.left_ul && before) {
    const std::int64_t used = before->at("evidence").at("ul").get<std::int64_t>() + off.added_ul - *off.left_ul;
    if (used < 0 || *off.left_ul < 0 || off.added_ul < 0)
      return fail(ErrorCode::out_of_range, "more is left in the tank than there was", "--left",
                  "measure again, or give what was filled in between with --added");
    body["used_ul"] = used;
    body["left_ul"] = *off.left_ul;
    if (!off.left_typed.empty()) body["left_typed"] = off.left_typed;
    body["measured"] = "before-and-after";
  } else {
    body["used_ul"] = used_by_time_ul(*job);
    body["measured"] = "by-time";
  }
  const auto used_ul = body["used_ul"].get<std::int64_t>();
  Drafts drafts{draft(context, "fog-ended", std::move(body))};
  if (state_of(*job) == JobState::stopped) draw_rest(context, *job, used_ul, drafts);
  return drafts;
}

}  // namespace fogwright
