// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>

#include "asking/zone_time.hpp"
#include "cli/import_call.hpp"
#include "cli/job_commands.hpp"
#include "desk/csv_table.hpp"
#include "fogwright/desk/imports.hpp"

namespace fogwright {
namespace {

constexpr const char* usual_reason = "done before the book was kept";

/// "hall=42 s; den=40 s"
std::vector<LateRecord::Return> returns_of(OptionReader& reader, const std::string& fogged) {
  std::vector<LateRecord::Return> returns;
  for (const std::string& typed : csv_words(fogged, ";")) {
    const auto at = std::min(typed.find('='), typed.size());
    const std::string time = at < typed.size() ? typed.substr(at + 1) : std::string();
    returns.push_back(
        {{}, typed.substr(0, at), reader.take(read_fog_time(time, "fogged")).floor_in(unit::millisecond)});
  }
  return returns;
}

/// The options with which `job plan` would plan this job.
Options plan_options_of(const OldJobRow& row, const std::string& zone,
                        const std::vector<LateRecord::Return>& returns) {
  Options options;
  for (const auto& [name, text] : {std::pair<const char*, const std::string*>{"job", &row.job},
                                   {"product", &row.product},
                                   {"technician", &row.technician},
                                   {"zone", &zone},
                                   {"area", &row.area},
                                   {"returns", &row.returns},
                                   {"fogger", &row.fogger},
                                   {"van", &row.van},
                                   {"customer", &row.customer},
                                   {"address", &row.address}})
    if (!text->empty()) options.add(name, *text);
  for (const LateRecord::Return& one : returns) options.add("return", one.name);
  return options;
}

LateRecord record_of(OptionReader& reader, const OldJobRow& row, const std::string& zone) {
  LateRecord record;
  record.why_late = row.why.empty() ? usual_reason : row.why;
  record.started_ms = reader.take(read_local_time(row.started, zone, false, "started"));
  record.ended_ms = reader.take(read_local_time(row.ended, zone, true, "ended"));
  if (!row.released.empty())
    record.released_ms = reader.take(read_local_time(row.released, zone, false, "released"));
  if (!row.used.empty()) record.used_ul = reader.read_volume(row.used, "used", Rounding::up);
  record.returns = returns_of(reader, row.fogged);
  record.met = row.met;
  return record;
}

/// The names of the returns go to the system that the plan makes of them.
void name_systems(const Plan& plan, LateRecord& record) {
  for (LateRecord::Return& one : record.returns) one.system = plan.systems.front().name;
}

tl::expected<OldJob, Faults> read_job(const Call& call, Store& store, const OldJobRow& row) {
  const std::string usual =
      call.options.text("zone").value_or(call.outside.environment("FOGWRIGHT_ZONE").value_or(""));
  const std::string zone = row.zone.empty() ? usual : row.zone;
  if (zone.empty())
    return refuse({ErrorCode::missing_value,
                   "the time zone of the site is not given",
                   {},
                   "fill in zone, or write --zone America/Chicago"});
  if (auto ok = check_zone_name(zone); !ok) return refuse(ok.error());
  OptionReader reader(call);
  LateRecord record = record_of(reader, row, zone);
  if (reader.fault()) return refuse(*reader.fault());
  const Options options = plan_options_of(row, zone, record.returns);
  auto planned = plan_from_options({options, call.outside, call.style}, store);
  if (!planned) return tl::make_unexpected(planned.error());
  name_systems(planned->plan, record);
  return OldJob{std::move(planned->job), std::move(planned->plan), std::move(record), row.where};
}

tl::expected<std::vector<OldJob>, Faults> read_jobs(const Call& call, Store& store,
                                                    const std::vector<OldJobRow>& rows) {
  std::vector<OldJob> jobs;
  Faults faults;
  for (const OldJobRow& row : rows) {
    auto job = read_job(call, store, row);
    if (job)
      jobs.push_back(std::move(*job));
    else
      for (const Error& error : job.error())
        faults.push_back({ErrorCode::bad_import, error.message, row.where, error.hint});
  }
  if (!faults.empty()) return tl::make_unexpected(std::move(faults));
  return jobs;
}

void keep_sites(const Call& call, Store& store, const std::vector<OldJobRow>& rows, std::vector<OldJob>& jobs) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    jobs[i].job.site = keep_beside(call, store, {{"customer", rows[i].customer}, {"address", rows[i].address}});
}

void erase_sites(Store& store, const std::vector<OldJob>& jobs) {
  for (const OldJob& old : jobs)
    if (!old.job.site.empty()) store.erase_private(old.job.site);
}

std::string told(const Drafts& drafts) {
  const auto jobs = std::count_if(drafts.begin(), drafts.end(),
                                  [](const NewEntry& draft) { return draft.kind == "job-recorded"; });
  return fmt::format("jobs recorded afterwards: {}", jobs);
}

}  // namespace

Outcome run_job_import(const Call& call) {
  const auto text = read_import(call);
  if (!text) return refuse(text.error());
  const auto rows = read_old_jobs_csv(*text, call.options.operands().front());
  if (!rows) return tl::make_unexpected(rows.error());
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  auto jobs = read_jobs(call, **store, *rows);
  if (!jobs) return tl::make_unexpected(jobs.error());
  const bool writes = !call.options.has("dry-run");
  if (writes) keep_sites(call, **store, *rows, *jobs);
  auto outcome = import_to_book(
      call, **store,
      [&](const DeskContext& context) { return import_old_jobs(context, *jobs, system_calendar()); }, told);
  if (writes && !outcome) erase_sites(**store, *jobs);
  return outcome;
}

}  // namespace fogwright
