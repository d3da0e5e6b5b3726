// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/desk_call.hpp"
#include "cli/job_commands.hpp"
#include "cli/job_text.hpp"
#include "cli/zone_time.hpp"
#include "desk/job_document.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr Stage stages[] = {Stage::before_mixing, Stage::before_fogging, Stage::during_fogging,
                            Stage::before_release, Stage::before_close};

Moment now_of(const Call& call) { return {call.outside.now_ms(), call.outside.boot_clock()}; }

json missing_json(const Documents& now, const json& job, const Call& call) {
  const std::int64_t ms = call.outside.now_ms();
  const LocalDay today = local_day(job.at("zone").get<std::string>(), ms);
  json list = json::array();
  const bool started = job.contains("fog_started");
  for (const Stage stage : stages) {
    // Once the fog is out, what was open before it is a departure and no longer a question.
    if (started && (stage == Stage::before_mixing || stage == Stage::before_fogging)) continue;
    for (const Missing& one : missing_in(now, job, stage, ms, today))
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

void show_returns(Page& page, const json& job) {
  page.heading("Fog");
  for (const json& system : job.at("plan").at("systems"))
    for (const json& one : system.at("returns")) {
      const std::int64_t ms =
          fogged_ms(job, system.at("name").get<std::string>(), one.at("name").get<std::string>());
      page.field(
          one.at("name").get<std::string>(),
          fmt::format("{} s planned ({} to {} s){}", one.at("seconds").get<std::int64_t>(),
                      one.at("band_s").at(0).get<std::int64_t>(), one.at("band_s").at(1).get<std::int64_t>(),
                      ms > 0 ? fmt::format(", {}.{} s fogged", ms / 1'000, ms / 100 % 10) : ""));
    }
}

void show_open(Page& page, const json& job, const json& missing) {
  if (missing.empty()) return;
  std::string stage;
  for (const json& one : missing) {
    if (one.at("stage") != stage) page.heading("Open, " + (stage = one.at("stage")));
    const std::string id = one.at("requirement");
    const std::string why = one.at("why");
    page.field(id, item_words(job, id) + (why == "not met yet" ? "" : fmt::format(" [{}]", why)));
  }
}

void show_facts(Page& page, const json& job, const Call& call) {
  const std::string zone = job.at("zone");
  page.heading(fmt::format("Job {}: {}", job.at("job").get<std::string>(), job.at("state").get<std::string>()));
  page.field("product", job.at("product").get<std::string>());
  page.field("technician", job.at("technician").get<std::string>());
  page.field("planned", local_time(zone, job.at("planned_ms").get<std::int64_t>()));
  for (const char* moment : {"fog_started", "fog_ended", "released"})
    if (job.contains(moment))
      page.field(moment == std::string_view("fog_ended")     ? "fog off"
                 : moment == std::string_view("fog_started") ? "fog from"
                                                             : "released",
                 local_time(zone, job.at(moment).at("ms").get<std::int64_t>()));
  if (job.contains("used_ul"))
    page.field("used", fmt::format("{} ({})", volume_text(job["used_ul"], call.style.units),
                                   job.value("measured", std::string())));
}

Result<json> show_job(const Call& call, const Documents& now, Page& page, const std::string& id) {
  const auto job = find_job(now, id);
  if (!job) return job;
  json out = *job;
  const std::int64_t ms = call.outside.now_ms();
  out["missing"] = missing_json(now, *job, call);
  show_facts(page, *job, call);
  show_returns(page, *job);
  if (const auto hold = hold_state(*job, now_of(call)); hold && !job->contains("released")) {
    out["hold"] = hold_json(*job, *hold, ms);
    page.heading("Hold");
    page.paragraph(hold_words(*job, *hold, ms), "  ", Emphasis::strong);
  }
  show_open(page, *job, out["missing"]);
  page.blank();
  page.paragraph(next_words(*job), "");
  return out;
}

}  // namespace

Outcome run_job_show(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the job");
  if (options.fault()) return refuse(*options.fault());
  return show_from_book(
      call, [&](const Documents& now, Page& page) { return show_job(call, now, page, options.operand()); });
}

Outcome run_job_list(const Call& call) {
  return show_from_book(call, [&](const Documents& now, Page& page) -> Result<json> {
    json list = json::array();
    now.each("job", !call.options.has("all"), [&](const std::string& id, const json& job) {
      json row = {{"job", id}};
      for (const char* member : {"state", "product", "technician", "planned_ms"}) row[member] = job.at(member);
      std::string words =
          fmt::format("{}, {}, {}", job.at("state").get<std::string>(), job.at("product").get<std::string>(),
                      job.at("technician").get<std::string>());
      if (const auto hold = hold_state(job, now_of(call)); hold && !job.contains("released"))
        words += ". " + hold_words(job, *hold, call.outside.now_ms());
      page.field(id, words);
      list.push_back(std::move(row));
    });
    if (list.empty()) page.paragraph("No job is open.", "");
    return json{{"jobs", std::move(list)}};
  });
}

}  // namespace fogwright
