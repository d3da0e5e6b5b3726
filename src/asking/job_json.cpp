// SPDX-License-Identifier: Apache-2.0
#include "asking/job_json.hpp"

#include "asking/job_text.hpp"
#include "asking/zone_time.hpp"
#include "desk/job_document.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr Stage stages[] = {Stage::before_mixing, Stage::before_fogging, Stage::during_fogging,
                            Stage::before_release, Stage::before_close};

/// An item of the gate as whoever meets it reads it.
json item_json(const json& job, const Need& need) {
  json item = {
      {"item", need.id}, {"words", item_words(job, need.id)}, {"question", evidence_question(need.id)}};
  if (!need.rule) return item;
  if (!need.value.empty()) item["value"] = need.value;
  item["why"] = need.rule->why;
  item["basis"] = basis_name(need.rule->basis);
  item["citation"] = need.rule->citation;
  item["evidence"] = evidence_name(need.rule->evidence);
  item["lapse"] = lapse_name(need.rule->lapse);
  item["stage"] = stage_name(need.rule->stage);
  item["by_facts"] = decided_by_facts(need.id);
  return item;
}

json items_json(const json& job) {
  json items = json::array();
  for (const Need& need : needs_of(job)) items.push_back(item_json(job, need));
  return items;
}

}  // namespace

json missing_json(const Documents& now, const json& job, std::int64_t now_ms) {
  const LocalDay today = local_day(job.at("zone").get<std::string>(), now_ms);
  json list = json::array();
  const bool started = job.contains("fog_started");
  for (const Stage stage : stages) {
    if (started && (stage == Stage::before_mixing || stage == Stage::before_fogging)) continue;
    for (const Missing& one : missing_in(now, job, stage, now_ms, today))
      list.push_back({{"requirement", one.requirement}, {"why", one.why}, {"stage", stage_name(stage)}});
  }
  return list;
}

json hold_json(const json& job, const HoldState& hold, std::int64_t now_ms) {
  json out = {{"elapsed_ms", hold.elapsed_ms},
              {"floor_ms", hold.floor_ms},
              {"total_ms", hold.total_ms},
              {"readings_needed", hold.readings_needed},
              {"may_release", hold.ready.has_value()},
              {"words", hold_words(job, hold, now_ms)}};
  if (!hold.ready) out["why"] = hold.ready.error().message;
  return out;
}

Result<json> job_json(const Documents& now, const std::string& id, const Moment& moment) {
  auto job = find_job(now, id);
  if (!job) return job;
  (*job)["items"] = items_json(*job);
  (*job)["missing"] = missing_json(now, *job, moment.ms);
  if (const auto hold = hold_state(*job, moment); hold && !job->contains("released"))
    (*job)["hold"] = hold_json(*job, *hold, moment.ms);
  return job;
}

json job_row(const std::string& id, const json& job) {
  json row = {{"job", id}};
  for (const char* member : {"state", "product", "technician", "planned_ms"}) row[member] = job.at(member);
  for (const char* member : {"zone", "van", "scheduled_ms"})
    if (job.contains(member)) row[member] = job.at(member);
  return row;
}

}  // namespace fogwright
