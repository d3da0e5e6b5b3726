// SPDX-License-Identifier: Apache-2.0
#include "asking/adopted_label.hpp"
#include "asking/route.hpp"
#include "asking/zone_time.hpp"
#include "fogwright/desk/job.hpp"
#include "fogwright/desk/replan.hpp"

namespace fogwright {
namespace {

using nlohmann::json;
using enum MemberType;

Result<NewJob> read_job(const Asked& asked) {
  NewJob job;
  job.id = asked.text("job");
  job.product = asked.text("product");
  job.technician = asked.text("technician");
  job.fogger = asked.text("fogger");
  job.van = asked.text("van");
  job.zone = asked.text("zone");
  job.site = asked.beside();
  if (auto ok = check_zone_name(job.zone); !ok) return tl::make_unexpected(ok.error());
  if (!asked.has("scheduled")) return job;
  const auto at = read_local_time(asked.text("scheduled"), job.zone, false, "scheduled");
  if (!at) return tl::make_unexpected(at.error());
  job.scheduled_ms = *at;
  return job;
}

/// As the command line plans a job: from what was typed, what the book knows of the fogger, and the adopted
/// label.
Answer plan(const DeskContext& context, Asked& asked) {
  auto job = read_job(asked);
  if (!job) return tl::make_unexpected(job.error());
  job->request = {{"members", asked.body().at("site")}};
  auto request = read_plan_request(asked.body().at("site"));
  if (!request) return tl::make_unexpected(request.error().front());
  auto adopted = adopted_label(context.documents, job->product);
  if (!adopted) return tl::make_unexpected(std::move(adopted.error()));
  job->label_digest = std::move(adopted->digest);
  request->label = std::move(adopted->label);
  const json fogger = fogger_facts(context.documents, job->fogger);
  add_fogger_facts(fogger, *request);
  if (!fogger.empty()) job->request["fogger"] = fogger;
  const auto made = make_plan(*request);
  if (!made) return tl::make_unexpected(made.error());
  return decided(plan_job(context, *job, *made));
}

Answer check(const DeskContext& context, Asked& asked) {
  return decided(meet_requirement(context, asked.name(), asked.name(1), asked.text("answer"), local_day,
                                  asked.text("photo_digest")));
}

/// Items by name, or all that lapse at an event.
Answer lapse(const DeskContext& context, Asked& asked) {
  const std::string why = asked.text("why");
  const std::string event = asked.text("event");
  if (event == "entered") return decided(lapse_all(context, asked.name(), Lapse::when_someone_enters, why));
  if (event == "doffed") return decided(lapse_all(context, asked.name(), Lapse::at_each_donning, why));
  if (!event.empty() || asked.texts("items").empty())
    return fail(ErrorCode::missing_value, "it is not said what lapses", "items",
                "name items, or event: entered or doffed");
  Drafts drafts;
  for (const std::string& item : asked.texts("items")) {
    auto more = lapse_requirement(context, asked.name(), item, why);
    if (!more) return tl::make_unexpected(more.error());
    drafts.push_back(std::move(more->front()));
  }
  return decided(std::move(drafts));
}

Answer clear(const DeskContext& context, Asked& asked) {
  return decided(clear_job(context, asked.name(), local_day));
}
Answer start(const DeskContext& context, Asked& asked) { return start_job(context, asked.name(), local_day); }
Answer release(const DeskContext& context, Asked& asked) {
  return release_job(context, asked.name(), local_day);
}
Answer close(const DeskContext& context, Asked& asked) {
  return decided(close_job(context, asked.name(), local_day));
}
Answer stop(const DeskContext& context, Asked& asked) {
  return decided(stop_job(context, asked.name(), asked.text("why")));
}

Answer fogged(const DeskContext& context, Asked& asked) {
  const auto ms = asked.fog_ms(asked.text("time"), "time");
  return after(asked, [&] {
    return record_return(context, asked.name(), asked.text("system"), asked.text("return"), ms);
  });
}

Answer fog_off(const DeskContext& context, Asked& asked) {
  FogOff off;
  off.left_ul = asked.volume_if_given("left", Rounding::down);
  off.added_ul = asked.volume_if_given("added", Rounding::up).value_or(0);
  off.left_typed = asked.text("left");
  return after(asked, [&] { return end_fog(context, asked.name(), off); });
}

Answer reading(const DeskContext& context, Asked& asked) {
  NewReading taken;
  taken.substance = asked.text("substance");
  taken.typed = asked.text("value");
  taken.fan_running = asked.flag("fan_running");
  taken.instrument = asked.text("instrument");
  taken.ug_m3 = asked.take(read_reading(taken.substance, taken.typed));
  return after(asked, [&] { return take_reading(context, asked.name(), taken); });
}

LateRecord late_record(Asked& asked, const std::string& zone) {
  const auto moment = [&](const char* member, bool later) {
    return asked.take(read_local_time(asked.text(member), zone, later, member));
  };
  LateRecord late;
  late.why_late = asked.text("why");
  late.started_ms = moment("started", false);
  late.ended_ms = moment("ended", true);
  if (asked.has("released")) late.released_ms = moment("released", false);
  late.used_ul = asked.volume_if_given("used", Rounding::up);
  const json returns = asked.body().value("returns", json::object());
  const json met = asked.body().value("met", json::object());
  for (const auto& [name, time] : returns.items())
    late.returns.push_back(
        {{}, name, asked.fog_ms(time.is_string() ? time.get<std::string>() : "", "returns")});
  for (const auto& [item, answer] : met.items())
    late.met.emplace_back(item, answer.is_string() ? answer.get<std::string>() : "");
  return late;
}

Answer record(const DeskContext& context, Asked& asked) {
  const auto job = context.documents.get("job", asked.name());
  if (!job)
    return fail(ErrorCode::not_found, "there is no such job", "the address", "GET /api/v1/jobs lists them");
  const LateRecord late = late_record(asked, job->at("zone"));
  return after(asked, [&] { return record_job(context, asked.name(), late, local_day); });
}

std::vector<Route> planning_routes() {
  Route planning = writing("/api/v1/jobs", "planJob", "job-planned", "A job is planned by an adopted label",
                           {{"product", text, true, "key of the product"},
                            {"technician", text, true, "who does the job"},
                            {"zone", text, true, "time zone of the site, e.g. America/Chicago"},
                            {"site", object, true, "the members of a site file (docs/site-file.md)"},
                            {"job", text, false, "its name (else the next number)"},
                            {"fogger", text, false, "which fogger"},
                            {"van", text, false, "which van"},
                            {"scheduled", text, false, "at the site: 2026-03-04 14:00"},
                            {"customer", text, false, "kept beside the record, so that it can be erased"},
                            {"address", text, false, "likewise"}},
                           plan);
  planning.beside = {"customer", "address"};
  planning.counted = "job";
  return {
      planning,
      writing("/api/v1/jobs/{job}/checks/{item}", "meetItem", "requirement-met", "An item of the gate is met",
              {{"answer", text, true, "yes, a count, a name: what the item asks for"},
               {"photo_digest", text, false, "SHA-256 of a photo"}},
              check),
      writing("/api/v1/jobs/{job}/lapses", "lapseItems", "requirement-lapsed", "Items that are no longer met",
              {{"why", text, true, "the reason"},
               {"items", texts, false, "which"},
               {"event", text, false, "entered, or doffed: all that lapse then"}},
              lapse),
      writing("/api/v1/jobs/{job}/clearance", "clearJob", "job-cleared", "Every item before the fog is met", {},
              clear),
  };
}

std::vector<Route> fogging_routes() {
  Route releasing = writing("/api/v1/jobs/{job}/release", "releaseJob", "job-released",
                            "People and animals may go in; asks for the password again", {}, release);
  releasing.password = true;
  return {
      writing("/api/v1/jobs/{job}/start", "startJob", "fog-started", "Fog starts, where the gate lets it", {},
              start),
      writing("/api/v1/jobs/{job}/returns", "recordReturn", "return-fogged", "A stretch of fog at one return",
              {{"return", text, true, "its name"},
               {"time", text, true, "e.g. 42 s"},
               {"system", text, false, "its air system"}},
              fogged),
      writing("/api/v1/jobs/{job}/fog-off", "endFog", "fog-ended", "Valve shut, motor off: the hold runs",
              {{"left", text, false, "measured in the tank"}, {"added", text, false, "filled in between"}},
              fog_off),
      writing("/api/v1/jobs/{job}/readings", "takeReading", "reading-taken", "A reading of an instrument",
              {{"substance", text, true, "CAS number"},
               {"value", text, true, "e.g. 0.02 mg/m3"},
               {"fan_running", flag, false, "the fan was running"},
               {"instrument", text, false, "which"}},
              reading),
      releasing,
      writing("/api/v1/jobs/{job}/close", "closeJob", "job-closed", "Everything is put back", {}, close),
      writing("/api/v1/jobs/{job}/stop", "stopJob", "job-stopped",
              "Stopped; where fog was let out the hold runs on", {{"why", text, true, "the reason"}}, stop),
      writing("/api/v1/jobs/{job}/record", "recordJob", "job-recorded",
              "A planned job that was done without the tool",
              {{"why", text, true, "why it comes late"},
               {"started", text, true, "at the site: 2026-03-04 14:05"},
               {"ended", text, true, "likewise"},
               {"released", text, false, "likewise"},
               {"used", text, false, "volume"},
               {"returns", object, false, "time by return: {\"hall\": \"42 s\"}"},
               {"met", object, false, "answer by item"}},
              record),
  };
}

}  // namespace

std::vector<Route> job_routes() {
  std::vector<Route> all = planning_routes();
  for (Route& route : fogging_routes()) all.push_back(std::move(route));
  return all;
}

}  // namespace fogwright
