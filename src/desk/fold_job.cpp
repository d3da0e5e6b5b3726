// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>

#include "desk/fold_job_checks.hpp"
#include "desk/fold_parts.hpp"
#include "desk/job_document.hpp"
#include "desk/more_fog.hpp"
#include "desk/stock_books.hpp"
#include "desk/vessels.hpp"
#include "fogwright/desk/plan_check.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// When an entry happened: not after the book took it in, whatever a clock that runs ahead says.
std::int64_t happened_ms(const Entry& entry) { return std::min(entry.happened_ms, entry.received_ms); }

void keep(const Entry& entry, MutableDocuments& documents, json& job) {
  job["last_ms"] = std::max(job.value("last_ms", happened_ms(entry)), happened_ms(entry));
  job["last_seq"] = entry.seq;
  documents.put("job", job.at("job").get<std::string>(), job, is_live(job));
}

std::optional<json> job_for(const Entry& entry, MutableDocuments& documents) {
  const std::string id = entry.body.at("job");
  auto job = documents.get("job", id);
  if (!job) raise(entry, documents, "unknown-name", fmt::format("no job is called \"{}\"", id));
  return job;
}

/// When the fog ended. A clock that was set back since the job's last entry does not date it earlier: after a
/// reboot only the calendar tells the hold.
json fog_off_moment(const Entry& entry, const json& job) {
  const std::int64_t at = std::max(happened_ms(entry), job.value("last_ms", happened_ms(entry)));
  return moment_json(moment_of(at, entry.body));
}

/// The hold follows what was really let out.
void follow_the_fog(const Entry& entry, MutableDocuments& documents, json& job) {
  if (!job.contains("used_ul")) return;
  const auto used_ul = job["used_ul"].get<std::int64_t>();
  const auto longer = hold_of_more_fog(documents, job, used_ul);
  if (!longer) return;
  if (!job.contains("hold_planned")) job["hold_planned"] = job.at("plan").at("hold_minutes");
  json plan = more_cautious(job.at("plan"), *longer, true);
  const bool known = job.value("over_fogged", false) && plan == job["plan"];
  job["plan"] = std::move(plan);
  job["over_fogged"] = true;
  if (known) return;
  raise_about(entry, documents, job, "over-fogged",
              fmt::format("{} was let out, and the plan reckoned with {} at most: the hold is {} min",
                          volume_words(let_out_ul(job, used_ul), Rounding::up),
                          volume_words(job["plan"].at("volume_ul").at("high").get<std::int64_t>()),
                          job["plan"].at("hold_minutes").at("total").get<std::int64_t>()),
              entries_of(job, {"planned_seq"}));
}

void raise_out_of_order(const Entry& entry, MutableDocuments& documents, const json& job) {
  raise_about(entry, documents, job, "out-of-order",
              fmt::format("{} of a job that was {}", entry.kind, job.at("state").get<std::string>()),
              entries_of(job, {"last_seq"}));
}

/// Takes the step where the job's state allows it; else raises that it came out of order.
bool take_step(const Entry& entry, MutableDocuments& documents, json& job, JobStep step) {
  if (const auto next = next_state(state_of(job), step)) {
    job["state"] = job_state_name(*next);
    return true;
  }
  raise_out_of_order(entry, documents, job);
  return false;
}

void planned(const Entry& entry, MutableDocuments& documents) {
  const json& body = entry.body;
  const std::string id = body.at("job");
  if (const auto first = documents.get("job", id))
    return raise(entry, documents, "name-taken", fmt::format("{} was planned again; the first plan stands", id),
                 json::object(), entries_of(*first, {"planned_seq"}));
  json job = {{"state", job_state_name(JobState::planned)},
              {"planned_ms", entry.happened_ms},
              {"planned_seq", entry.seq},
              {"met", json::object()},
              {"not_done", json::object()},
              {"returns", json::array()},
              {"readings", json::array()},
              {"starts_refused", 0},
              {"releases_refused", 0}};
  for (const char* member : {"job", "zone", "site", "product", "label_digest", "technician", "plan"})
    job[member] = body.at(member);
  for (const char* member : {"fogger", "van", "scheduled_ms"})
    if (body.contains(member)) job[member] = body[member];
  (void)needs_of(job);  // a plan that cannot be read is refused here, not at the gate
  keep(entry, documents, job);
  documents.put("job-request", id, body.at("request"), true);
  count_one(documents, "job");
}

/// The office plans a job otherwise than the device did.
void plan_checked(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  std::string words;
  for (const json& one : entry.body.at("differences"))
    words += (words.empty() ? "" : "; ") + one.get<std::string>();
  raise_about(entry, documents, *job, "plan-differs", words, entries_of(*job, {"planned_seq"}));
  if (entry.body.contains("plan")) {
    (*job)["plan"] = more_cautious(job->at("plan"), entry.body["plan"], job->contains("fog_started"));
    job->erase("hold_planned");
  }
  keep(entry, documents, *job);
}

void requirement_met(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  const std::string id = entry.body.at("requirement");
  (*job)["met"][id] = {{"by", entry.body.at("by")},
                       {"at_ms", entry.body.at("at_ms")},
                       {"evidence", entry.body.at("evidence")},
                       {"entry", uuid_text(entry.id)}};
  (*job)["not_done"].erase(id);
  keep(entry, documents, *job);
  check_actor(entry, documents, *job);
}

void requirement_lapsed(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  const std::string id = entry.body.at("requirement");
  const std::string why = entry.body.at("why");
  (*job)["met"].erase(id);
  const auto need = need_of(*job, id);
  const bool begun = job->contains("fog_started");
  if (begun && need && need->rule && need->rule->stage == Stage::during_fogging) {
    (*job)["not_done"][id] = why;
    raise_about(entry, documents, *job, "item-not-kept", fmt::format("{}: {}", id, why),
                entries_of(*job, {"fog_started"}));
  }
  if (begun && need && need->rule && need->rule->stage == Stage::before_fogging &&
      need->rule->lapse == Lapse::when_someone_enters)
    raise_about(entry, documents, *job, "entered-in-fog", fmt::format("{}: {}", id, why),
                entries_of(*job, {"fog_started"}));
  keep(entry, documents, *job);
}

void start_refused(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  (*job)["starts_refused"] = job->at("starts_refused").get<std::int64_t>() + 1;
  keep(entry, documents, *job);
}

void cleared(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  take_step(entry, documents, *job, JobStep::clear);
  keep(entry, documents, *job);
}

LocalDay day_in(const Entry& entry, std::int64_t at_ms) {
  return {entry.body.value("day", day_of(at_ms)), entry.body.value("day_began_ms", at_ms - at_ms % day_ms)};
}

void fog_started(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  check_start(entry, documents, *job, entry.happened_ms, day_in(entry, entry.happened_ms));
  // Fog is in the house, whatever the state was.
  if (!take_step(entry, documents, *job, JobStep::start)) (*job)["state"] = job_state_name(JobState::fogging);
  (*job)["fog_started"] = moment_json(moment_of(entry.happened_ms, entry.body));
  (*job)["fog_started"]["seq"] = entry.seq;
  job->erase("fog_ended");
  job->erase("released");
  keep(entry, documents, *job);
}

void return_fogged(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  const bool stopped_in_fog = is_stopped_in_fog(*job);
  if (state_of(*job) != JobState::fogging && !stopped_in_fog)
    raise_about(entry, documents, *job, "out-of-order",
                fmt::format("a return was fogged in a job that was {}", job->at("state").get<std::string>()),
                entries_of(*job, {"last_seq"}));
  (*job)["returns"].push_back({{"system", entry.body.at("system")},
                               {"return", entry.body.at("return")},
                               {"actual_ms", entry.body.at("actual_ms")},
                               {"seq", entry.seq}});
  // Timed until after another device gave the job up or told the end: the hold counts from the last that is
  // known of the fog.
  if (stopped_in_fog || state_of(*job) == JobState::holding) {
    json ended = fog_off_moment(entry, *job);
    const json& before = job->at("fog_ended");
    // An entry of an earlier version tells no clock: the one of the fog's end goes on counting.
    if (!entry.body.contains("clock")) ended["clock"] = before.at("clock");
    // Of another device, and over before the end that is known: that one goes on counting by its own clock,
    // too.
    const bool older = happened_ms(entry) <= fog_off_ms(*job) &&
                       read_moment(ended).clock.boot != read_moment(before).clock.boot;
    if (!older) {
      ended["seq"] = entry.seq;
      (*job)["fog_ended"] = std::move(ended);
    }
    if (job->value("measured", std::string()) == "by-time") (*job)["used_ul"] = used_by_time_ul(*job);
    follow_the_fog(entry, documents, *job);
  }
  keep(entry, documents, *job);
}

void fog_ended(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  // The hold counts from the last fog, whatever the state was.
  if (!is_stopped_in_fog(*job) && !take_step(entry, documents, *job, JobStep::fog_off))
    (*job)["state"] = job_state_name(JobState::holding);
  (*job)["fog_ended"] = fog_off_moment(entry, *job);
  (*job)["fog_ended"]["seq"] = entry.seq;
  job->erase("released");
  for (const char* member : {"used_ul", "measured", "left_ul"})
    if (entry.body.contains(member)) (*job)[member] = entry.body[member];
  check_dose(entry, documents, *job);
  check_volume(entry, documents, *job);
  follow_the_fog(entry, documents, *job);
  note_use_of_job(entry, documents, *job);
  keep(entry, documents, *job);
}

/// The office knows that the clock of the device that dated the end of the fog was behind. The device itself
/// goes on counting by its own clock; whoever has another one counts from the office's time.
void clock_checked(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job || !job->contains("fog_ended") || job->contains("released")) return;
  json& ended = (*job)["fog_ended"];
  const auto at_ms = entry.body.at("fog_ended_ms").get<std::int64_t>();
  if (at_ms <= fog_off_ms(*job)) return;
  ended["office_ms"] = at_ms;
  raise_about(
      entry, documents, *job, "clock-set-in-hold",
      fmt::format("the clock of the device was {} min behind when it dated the end of the fog: the hold counts "
                  "from the later time",
                  entry.body.at("behind_ms").get<std::int64_t>() / 60'000),
      entries_of(*job, {"fog_ended"}));
  keep(entry, documents, *job);
}

void reading_taken(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  json reading = moment_json(moment_of(entry.happened_ms, entry.body));
  for (const char* member : {"substance", "ug_m3", "typed", "fan_running"})
    reading[member] = entry.body.at(member);
  reading["by"] = entry.actor;
  reading["seq"] = entry.seq;
  (*job)["readings"].push_back(std::move(reading));
  keep(entry, documents, *job);
}

void release_refused(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  (*job)["releases_refused"] = job->at("releases_refused").get<std::int64_t>() + 1;
  check_clock(entry, documents, *job);
  keep(entry, documents, *job);
}

void released(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  const Moment moment = moment_of(entry.happened_ms, entry.body);
  check_clock(entry, documents, *job);
  check_release(entry, documents, *job, moment);
  check_before_release(entry, documents, *job, moment.ms);
  check_releaser(entry, documents, *job);
  if (take_step(entry, documents, *job, JobStep::release)) {
    (*job)["released"] = moment_json(moment);
    (*job)["released"]["by"] = entry.actor;
    (*job)["released"]["ground"] = entry.body.at("ground");
  }
  keep(entry, documents, *job);
}

void closed(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  check_products(entry, documents, *job);
  check_draws(entry, documents, *job);
  if (take_step(entry, documents, *job, JobStep::close)) (*job)["closed_ms"] = entry.happened_ms;
  keep(entry, documents, *job);
}

void stopped(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  const bool in_fog = state_of(*job) == JobState::fogging;
  if (take_step(entry, documents, *job, JobStep::stop)) {
    (*job)["stopped"] = {{"why", entry.body.at("why")}, {"ms", entry.happened_ms}, {"by", entry.actor}};
    // Stopping in the middle shuts the valve: the hold runs from here, and nobody measured what is left.
    if (in_fog) {
      (*job)["fog_ended"] = fog_off_moment(entry, *job);
      (*job)["fog_ended"]["seq"] = entry.seq;
      (*job)["used_ul"] = used_by_time_ul(*job);
      (*job)["measured"] = "by-time";
      check_too_much(entry, documents, *job);
      follow_the_fog(entry, documents, *job);
    }
    check_draws(entry, documents, *job);
  }
  keep(entry, documents, *job);
}

/// The end of the fog of a job that was recorded afterwards. Whichever device tells it, the later end stands,
/// and no release that came before it.
void end_recorded_fog(const Entry& entry, json& job, const Moment& ended) {
  const JobState state = state_of(job);
  if (state == JobState::fogging) return;  // it runs still
  if (job.contains("fog_ended") && fog_off_ms(job) >= ended.ms) return;
  job["fog_ended"] = moment_json(ended);
  job["fog_ended"]["seq"] = entry.seq;
  job.erase("released");
  if (state != JobState::stopped) job["state"] = job_state_name(JobState::holding);
}

/// What was used: as it was told, else by the time. Of a job that was told twice, the more.
void note_recorded_use(const Entry& entry, json& job) {
  const bool told = entry.body.contains("used_ul");
  const std::int64_t ul = told ? entry.body["used_ul"].get<std::int64_t>() : used_by_time_ul(job);
  if (job.contains("used_ul") && job["used_ul"].get<std::int64_t>() >= ul) return;
  job["used_ul"] = ul;
  job["measured"] = told ? "afterwards" : "by-time";
}

/// A job that was done without the tool: the facts, held to the same rules.
void recorded(const Entry& entry, MutableDocuments& documents) {
  auto job = job_for(entry, documents);
  if (!job) return;
  const json& body = entry.body;
  const auto started = body.at("started_ms").get<std::int64_t>();
  const Moment ended{body.at("ended_ms").get<std::int64_t>(), {}};
  const JobState before = state_of(*job);
  const bool expected = before == JobState::planned || before == JobState::cleared;
  if (!expected) raise_out_of_order(entry, documents, *job);
  raise_about(entry, documents, *job, "done-without-tool",
              fmt::format("{} was done without the tool: {}", job->at("job").get<std::string>(),
                          body.at("why_late").get<std::string>()),
              entries_of(*job, {"planned_seq"}));
  for (const auto& [id, evidence] : body.at("met").items())
    (*job)["met"][id] = {{"by", entry.actor},
                         {"at_ms", started},
                         {"evidence", evidence},
                         {"entry", uuid_text(entry.id)},
                         {"afterwards", true}};
  for (json one : body.at("returns")) {
    one["seq"] = entry.seq;
    // The system that the name tells, where it was left out.
    if (one.at("system") == "")
      if (const auto planned = find_return(*job, "", one.at("return").get<std::string>()))
        one["system"] = planned->system;
    (*job)["returns"].push_back(std::move(one));
  }
  check_start(entry, documents, *job, started, day_in(entry, started));
  if (!job->contains("fog_started") || (*job)["fog_started"].at("ms").get<std::int64_t>() > started) {
    (*job)["fog_started"] = moment_json({started, {}});
    (*job)["fog_started"]["seq"] = entry.seq;
  }
  (*job)["recorded_seq"] = entry.seq;
  end_recorded_fog(entry, *job, ended);
  note_recorded_use(entry, *job);
  check_dose(entry, documents, *job);
  check_volume(entry, documents, *job);
  follow_the_fog(entry, documents, *job);
  note_use_of_job(entry, documents, *job);
  // A release that was told with it counts where no other device knows of the job.
  if (expected && body.contains("released_ms")) {
    const Moment moment{body["released_ms"].get<std::int64_t>(), {}};
    check_release(entry, documents, *job, moment);
    check_before_release(entry, documents, *job, moment.ms);
    (*job)["state"] = job_state_name(JobState::released);
    (*job)["released"] = moment_json(moment);
    (*job)["released"]["by"] = entry.actor;
    (*job)["released"]["ground"] = "recorded afterwards";
  }
  keep(entry, documents, *job);
}

/// A note stands in the record; nothing follows from it.
void noted(const Entry& /*entry*/, MutableDocuments& /*documents*/) {}

/// What lived beside a job or a person is gone. The hash stays: it proves to whoever still has it what was
/// there.
void private_erased(const Entry& entry, MutableDocuments& documents) {
  const std::string kind = entry.body.at("of"), key = entry.body.at("key");
  if (kind != "job" && kind != "person") return;
  auto about = documents.get(kind, key);
  if (!about)
    return raise(entry, documents, "unknown-name", fmt::format("there is no {} called \"{}\"", kind, key));
  (*about)["erased"] = {{"at_ms", entry.happened_ms}, {"by", entry.actor}, {"seq", entry.seq}};
  documents.put(kind, key, *about, kind == "job" ? is_live(*about) : about->at("active").get<bool>());
}

constexpr FoldRow job_rows[] = {
    {"job-planned", planned},
    {"clock-checked", clock_checked},
    {"plan-checked", plan_checked},
    {"requirement-met", requirement_met},
    {"requirement-lapsed", requirement_lapsed},
    {"start-refused", start_refused},
    {"job-cleared", cleared},
    {"fog-started", fog_started},
    {"return-fogged", return_fogged},
    {"fog-ended", fog_ended},
    {"reading-taken", reading_taken},
    {"release-refused", release_refused},
    {"job-released", released},
    {"job-closed", closed},
    {"job-stopped", stopped},
    {"job-recorded", recorded},
    {"note", noted},
    {"private-erased", private_erased},
};

}  // namespace

std::span<const FoldRow> job_fold() { return job_rows; }

}  // namespace fogwright
