// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "asking/zone_time.hpp"
#include "cli/desk_call.hpp"
#include "cli/job_commands.hpp"
#include "cli/plan_command.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// The adopted label of the product.
Result<void> add_label(const Documents& now, NewJob& job, PlanRequest& request) {
  const auto product = now.get("product", job.product);
  const auto text = product ? now.get("label", product->at("current").get<std::string>()) : std::nullopt;
  if (!text)
    return fail(ErrorCode::not_found, fmt::format("no label of a product \"{}\" is adopted", job.product),
                "--product", "fogwright product list shows them; product adopt takes a profile in");
  auto label = read_label(text->at("text").get<std::string>(), job.product);
  if (!label) return tl::make_unexpected(label.error().front());
  job.label_digest = product->at("current");
  request.label = std::make_shared<const Label>(std::move(*label));
  return {};
}

Result<void> add_from_book(Store& store, NewJob& job, PlanRequest& request) {
  Result<void> done;
  store.read([&](const Documents& now, const Head&) {
    done = add_label(now, job, request);
    job.request["fogger"] = fogger_facts(now, job.fogger);
  });
  add_fogger_facts(job.request["fogger"], request);
  return done;
}

tl::expected<NewJob, Faults> read_job(const Call& call) {
  OptionReader options(call);
  NewJob job;
  job.id = options.text("job");
  job.product = options.needed("product", "fenmist-rtu");
  job.technician = options.needed("technician", "rowan");
  job.fogger = options.text("fogger");
  job.van = options.text("van");
  job.zone =
      options.on("zone") ? options.text("zone") : call.outside.environment("FOGWRIGHT_ZONE").value_or("");
  if (options.fault()) return refuse(*options.fault());
  if (job.zone.empty())
    return refuse({ErrorCode::missing_value, "the time zone of the site is not given", "--zone",
                   "write --zone America/Chicago or set FOGWRIGHT_ZONE"});
  if (auto ok = check_zone_name(job.zone); !ok) return refuse(ok.error());
  if (options.on("scheduled")) {
    const auto at = read_local_time(options.text("scheduled"), job.zone, false, "--scheduled");
    if (!at) return refuse(at.error());
    job.scheduled_ms = *at;
  }
  return job;
}

std::string planned_words(const Drafts& drafts) {
  const json& body = drafts.front().body;
  const json& plan = body.at("plan");
  std::int64_t seconds = 0;
  for (const json& system : plan.at("systems")) seconds += system.at("target_s").get<std::int64_t>();
  return fmt::format("Job {} is planned for {}: {} s of fog, {} min empty after it ({}), {} items to meet.",
                     body.at("job").get<std::string>(), body.at("technician").get<std::string>(), seconds,
                     plan.at("hold_minutes").at("total").get<std::int64_t>(),
                     plan.at("governs").get<std::string>(), plan.at("requirements").size());
}

}  // namespace

std::vector<OptionRow> job_plan_options() {
  std::vector<OptionRow> rows = {{"product", "KEY", "an adopted product; its label is the law of the job"},
                                 {"job", "ID", "name of the job (default: the next number)"},
                                 {"technician", "HANDLE", "who does the job: the gate is met for this person"},
                                 {"zone", "ZONE", "time zone of the site (default: FOGWRIGHT_ZONE)"},
                                 {"fogger", "NAME", "which fogger; its current catch test gives the flow"},
                                 {"van", "PLACE", "which van"},
                                 {"scheduled", "TIME", "at the site: '2026-03-04 14:00'"},
                                 {"customer", "WORDS", "kept beside the record, so that it can be erased"},
                                 {"address", "WORDS", "likewise"}};
  for (const OptionRow& row : plan_options()) {
    const std::string_view name = row.name;
    if (name != "label" && name != "example" && name != "full") rows.push_back(row);
  }
  return with_book_options(std::move(rows));
}

std::string keep_site(const Call& call, Store& store) {
  return keep_beside(call, store,
                     {{"customer", call.options.text("customer").value_or("")},
                      {"address", call.options.text("address").value_or("")}});
}

tl::expected<PlannedJob, Faults> plan_from_options(const Call& call, Store& store) {
  auto job = read_job(call);
  if (!job) return tl::make_unexpected(job.error());
  const auto typed = typed_request(call);
  if (!typed) return refuse(typed.error());
  job->request = typed->recorded;
  auto request = read_recorded_request(typed->recorded, typed->places);
  if (!request) return tl::make_unexpected(request.error());
  if (auto ok = add_from_book(store, *job, *request); !ok) return refuse(ok.error());
  auto plan = make_plan(*request);
  if (!plan) return refuse(plan.error());
  return PlannedJob{std::move(*job), std::move(*plan)};
}

Outcome run_job_plan(const Call& call) {
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  auto planned = plan_from_options(call, **store);
  if (!planned) return tl::make_unexpected(planned.error());
  planned->job.site = keep_site(call, **store);
  auto outcome = write_to_book(
      call, **store, [&](const DeskContext& context) { return plan_job(context, planned->job, planned->plan); },
      planned_words);
  if (!outcome && !planned->job.site.empty()) (*store)->erase_private(planned->job.site);
  return outcome;
}

}  // namespace fogwright
