// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/due.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <tuple>

#include "desk/job_document.hpp"
#include "desk/vessels.hpp"
#include "fogwright/desk/views.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// Fit tests hold for one facepiece each; every other paper for its kind.
std::string paper_of(const json& credential) {
  return fmt::format("{} {} {}", credential.at("what").get<std::string>(),
                     credential.value("facepiece_model", std::string()),
                     credential.value("facepiece_size", std::string()));
}

/// Whether another paper of the same kind holds longer.
bool is_replaced(const json& credential, const json& all) {
  return std::any_of(all.begin(), all.end(), [&](const json& other) {
    return !other.contains("withdrawn") && paper_of(other) == paper_of(credential) &&
           std::pair(other.at("expires"), other.at("entry")) >
               std::pair(credential.at("expires"), credential.at("entry"));
  });
}

Due paper_due(const std::string& handle, const json& credential) {
  std::string what = credential.at("what");
  std::replace(what.begin(), what.end(), '-', ' ');
  const std::string facepiece = credential.value("facepiece_model", std::string());
  return {DueKind::credential,
          credential.at("entry"),
          fmt::format("{}: {}{} ends", handle, what, facepiece.empty() ? "" : fmt::format(" ({})", facepiece)),
          "Last day it holds. Renew it before; without it the gate stays shut.",
          credential.at("expires"),
          0,
          {}};
}

void add_papers(const Documents& documents, const std::string& from, const std::string& to,
                std::vector<Due>& list) {
  documents.each("person", true, [&](const std::string& handle, const json& person) {
    const json& all = person.at("credentials");
    for (const json& credential : all) {
      const std::string expires = credential.at("expires");
      if (!credential.contains("withdrawn") && expires >= from && expires <= to &&
          !is_replaced(credential, all))
        list.push_back(paper_due(handle, credential));
    }
  });
}

Due vessel_due(const VesselView& vessel) {
  if (vessel.batch)
    return {DueKind::batch,
            vessel.id,
            fmt::format("Batch {} ({}) in {}: end of its life", vessel.id, vessel.item, vessel.place),
            "Not to be fogged any more. Dispose of what is left by the label.",
            {},
            vessel.usable_until_ms,
            {}};
  return {DueKind::container,
          vessel.id,
          fmt::format("{} ({}, lot {}) in {}: last day", vessel.id, vessel.item, vessel.lot, vessel.place),
          fmt::format("{} left by the book. Use it before or dispose of it by the label.",
                      volume_words(vessel.remaining_ul, Rounding::down)),
          day_of(vessel.usable_until_ms - 1),
          0,
          {}};
}

void add_vessels(const Documents& documents, std::int64_t now_ms, std::int64_t until_ms,
                 std::vector<Due>& list) {
  for (const VesselView& vessel : vessels_on_hand(documents, {}, {}, now_ms))
    if (vessel.usable_until_ms <= until_ms) list.push_back(vessel_due(vessel));
}

Due hold_due(const json& job, const HoldState& hold) {
  const std::string id = job.at("job");
  const Moment fog_off = read_moment(job.at("fog_ended"));
  const std::int64_t held_ms = hold.readings_needed ? hold.floor_ms : hold.total_ms;
  return {DueKind::hold,
          id,
          fmt::format("Job {}: hold, nobody goes in", id),
          fmt::format("Nobody goes in before the job is released by name{}.",
                      hold.readings_needed ? "; readings are needed as well" : ""),
          {},
          fog_off.ms,
          fog_off.ms + held_ms};
}

Due visit_due(const json& job) {
  return {DueKind::visit,
          job.at("job"),
          fmt::format("Job {}: {}, {}", job.at("job").get<std::string>(), job.at("product").get<std::string>(),
                      job.at("technician").get<std::string>()),
          "Planned visit.",
          {},
          job.at("scheduled_ms"),
          {}};
}

void add_jobs(const Documents& documents, const Moment& now, std::int64_t until_ms, std::vector<Due>& list) {
  documents.each("job", true, [&](const std::string&, const json& job) {
    const auto hold = hold_state(job, now);
    if (hold && !job.contains("released")) list.push_back(hold_due(job, *hold));
    const std::int64_t at = job.value("scheduled_ms", std::int64_t{0});
    if (!job.contains("fog_started") && at > now.ms - day_ms && at <= until_ms) list.push_back(visit_due(job));
  });
}

}  // namespace

std::string_view due_name(DueKind kind) noexcept {
  switch (kind) {
    case DueKind::container:
      return "container";
    case DueKind::batch:
      return "batch";
    case DueKind::credential:
      return "credential";
    case DueKind::visit:
      return "visit";
    case DueKind::hold:
      return "hold";
  }
  return "";
}

std::vector<Due> due_within(const Documents& documents, const Moment& now, int days) {
  const std::int64_t until_ms = now.ms + days * day_ms;
  std::vector<Due> list;
  add_vessels(documents, now.ms, until_ms, list);
  add_papers(documents, day_of(now.ms - day_ms), day_of(until_ms), list);
  add_jobs(documents, now, until_ms, list);
  const auto when = [](const Due& due) {
    return std::tuple(due.day.empty() ? day_of(due.from_ms) : due.day, due.from_ms, due.kind, due.key);
  };
  std::sort(list.begin(), list.end(), [&](const Due& a, const Due& b) { return when(a) < when(b); });
  return list;
}

}  // namespace fogwright
