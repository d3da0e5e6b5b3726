// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "asking/job_json.hpp"
#include "asking/job_text.hpp"
#include "asking/zone_time.hpp"
#include "cli/desk_call.hpp"
#include "cli/job_commands.hpp"
#include "desk/job_document.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

Moment now_of(const Call& call) { return {call.outside.now_ms(), call.outside.boot_clock()}; }

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
  const Moment moment = now_of(call);
  const auto job = find_job(now, id);
  if (!job) return job;
  auto out = job_json(now, id, moment);
  if (!out) return out;
  show_facts(page, *job, call);
  show_returns(page, *job);
  if (out->contains("hold")) {
    page.heading("Hold");
    page.paragraph(out->at("hold").at("words").get<std::string>(), "  ", Emphasis::strong);
  }
  show_open(page, *job, out->at("missing"));
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
      std::string words =
          fmt::format("{}, {}, {}", job.at("state").get<std::string>(), job.at("product").get<std::string>(),
                      job.at("technician").get<std::string>());
      if (const auto hold = hold_state(job, now_of(call)); hold && !job.contains("released"))
        words += ". " + hold_words(job, *hold, call.outside.now_ms());
      page.field(id, words);
      list.push_back(job_row(id, job));
    });
    if (list.empty()) page.paragraph("No job is open.", "");
    return json{{"jobs", std::move(list)}};
  });
}

}  // namespace fogwright
