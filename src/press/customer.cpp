// SPDX-License-Identifier: Apache-2.0
/// What the customer gets, and what hangs on the door.
#include <fmt/format.h>
#include <algorithm>

#include "desk/job_document.hpp"
#include "desk/job_hold.hpp"
#include "press/parts.hpp"

namespace fogwright::press {

using nlohmann::json;
using paper::Word;

namespace {

tl::unexpected<Error> not_now(const json& job, std::string_view what, std::string hint) {
  return fail(ErrorCode::wrong_state,
              fmt::format("job {} is {}: {}", job.at("job").get<std::string>(),
                          job.at("state").get<std::string>(), what),
              {}, std::move(hint));
}

/// The systems that fog went into. Nothing was timed in a job that is told afterwards without its returns.
std::vector<std::string> where_fogged(const Source& source, const json& job) {
  std::vector<std::string> where;
  for (const json& system : job.at("plan").at("systems")) {
    const std::string name = system.at("name");
    const auto& returns = system.at("returns");
    const auto fogged = std::count_if(returns.begin(), returns.end(), [&](const json& one) {
      return fogged_ms(job, name, one.at("name").get<std::string>()) > 0;
    });
    if (fogged > 0) where.push_back(word(source.language, Word::where_fogged, name, fogged));
  }
  if (where.empty()) where.push_back(word(source.language, Word::not_stated));
  return where;
}

/// When the hold ends by itself. What the device knows of the time since fog-off counts, not its calendar.
std::int64_t hold_end_ms(const Source& source, const HoldState& hold) {
  return source.moment.ms + std::max<std::int64_t>(0, hold.total_ms - hold.elapsed_ms);
}

}  // namespace

Result<paper::LeaveBehind> leave_behind(const Source& source, const std::string& id) {
  const auto found = job_and_label(source, id);
  if (!found) return tl::make_unexpected(found.error());
  const json& job = found->job;
  if (!job.contains("fog_started"))
    return not_now(job, "nothing was applied yet", "print the leave-behind when the fog was out");
  const Site site = site_of(source, job);
  paper::LeaveBehind facts;
  facts.customer = site.customer;
  facts.address = site.address;
  facts.job = id;
  facts.product = product_facts(found->label, source.language);
  facts.where = where_fogged(source, job);
  facts.fogged = local(source, job, job.at("fog_started").at("ms"));
  if (job.contains("released")) {
    facts.allowed_in = local(source, job, up_to_minute(job["released"].at("ms")));
    facts.released_by = job["released"].at("by");
  }
  if (!found->label.ventilation.empty()) facts.afterwards.push_back(found->label.ventilation);
  facts.contacts = source.contacts;
  return facts;
}

Result<paper::DoorNotice> door_notice(const Source& source, const std::string& id) {
  const auto found = job_and_label(source, id);
  if (!found) return tl::make_unexpected(found.error());
  const json& job = found->job;
  if (job.contains("released"))
    return not_now(job, "people may go in again", "take the notice down; the leave-behind tells the rest");
  const auto hold = hold_state(job, source.moment);
  if (!hold)
    return not_now(job, "no hold runs yet", "print the notice at fog-off: only then its time is known");
  paper::DoorNotice facts;
  facts.address = site_of(source, job).address;
  facts.job = id;
  facts.hold_end = local(source, job, up_to_minute(hold_end_ms(source, *hold)));
  facts.product = product_facts(found->label, source.language);
  facts.contacts = source.contacts;
  return facts;
}

}  // namespace fogwright::press
