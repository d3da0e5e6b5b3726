// SPDX-License-Identifier: Apache-2.0
#include "desk/fold_job_checks.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <cstdlib>

#include "desk/fold_parts.hpp"
#include "desk/job_gate.hpp"
#include "desk/job_hold.hpp"
#include "desk/job_items.hpp"
#include "desk/vessels.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// Company policy: use that is further from the plan than this share asks for a look at the fogger.
constexpr std::int64_t volume_share = 5;  // 1 in 5

std::string_view rule_for(const Missing& missing) {
  const Rule* rule = find_rule(missing.requirement);
  return rule && rule->evidence == Evidence::credential ? "credential-lapsed" : "start-without-item";
}

std::string seconds_words(std::int64_t ms) { return fmt::format("{}.{} s", ms / 1'000, ms / 100 % 10); }

}  // namespace

std::string utc_day(std::int64_t ms) { return day_of(ms); }

void raise_about(const Entry& entry, MutableDocuments& documents, const json& job, std::string_view rule,
                 std::string what) {
  raise(entry, documents, rule, std::move(what), {{"job", job.at("job")}, {"person", entry.actor}});
}

void check_start(const Entry& entry, MutableDocuments& documents, const json& job, std::int64_t at_ms,
                 const LocalDay& day) {
  const auto product = documents.get("product", job.at("product").get<std::string>());
  const bool same_label = product && product->at("current") == job.at("label_digest");
  if (!same_label)
    raise_about(entry, documents, job, "label-changed", "the label was replaced after the plan was made");
  for (const Missing& missing : missing_for_start(documents, job, at_ms, day)) {
    const bool about_label = missing.requirement == "label-read" && !same_label && met_of(job, "label-read");
    if (!about_label)
      raise_about(entry, documents, job, rule_for(missing),
                  fmt::format("{}: {}", missing.requirement, missing.why));
  }
  // Who records a job afterwards need not be who fogged it.
  if (entry.kind != "job-recorded" && entry.actor != job.at("technician"))
    raise_about(entry, documents, job, "wrong-person",
                fmt::format("{} fogged; the gate was met for {}", entry.actor,
                            job.at("technician").get<std::string>()));
  check_products(entry, documents, job);
}

void check_dose(const Entry& entry, MutableDocuments& documents, const json& job) {
  for (const json& system : job.at("plan").at("systems"))
    for (const json& one : system.at("returns")) {
      const std::string name = one.at("name");
      const std::int64_t ms = fogged_ms(job, system.at("name").get<std::string>(), name);
      const auto low = one.at("band_s").at(0).get<std::int64_t>();
      const auto high = one.at("band_s").at(1).get<std::int64_t>();
      if (ms >= low * 1'000 && ms < (high + 1) * 1'000) continue;
      raise_about(entry, documents, job, "time-off-band",
                  fmt::format("{} was fogged {}; the band is {} to {} s", name, seconds_words(ms), low, high));
    }
}

void check_volume(const Entry& entry, MutableDocuments& documents, const json& job) {
  if (!job.contains("used_ul") || job.value("measured", std::string()) == "by-time") return;
  const auto used = job["used_ul"].get<std::int64_t>();
  const auto planned = job.at("plan").at("volume_ul").at("target").get<std::int64_t>();
  if (std::abs(used - planned) * volume_share <= planned) return;
  raise_about(entry, documents, job, "volume-off-plan",
              fmt::format("{} was used; the plan was {}", volume_words(used), volume_words(planned)));
}

void check_release(const Entry& entry, MutableDocuments& documents, const json& job, const Moment& moment) {
  const auto hold = hold_state(job, moment);
  if (hold && !hold->ready) raise_about(entry, documents, job, "hold-not-kept", hold->ready.error().message);
}

void check_releaser(const Entry& entry, MutableDocuments& documents, const json& job) {
  const auto person = documents.get("person", entry.actor);
  const json roles = person ? person->value("roles", json::array()) : json::array();
  const bool may =
      person && person->value("active", false) && std::any_of(roles.begin(), roles.end(), [](const json& role) {
        return role == role_name(Role::technician) || role == role_name(Role::safety_officer);
      });
  if (!may)
    raise_about(entry, documents, job, "released-by-wrong-role",
                fmt::format("{} released the building and may not", entry.actor));
}

void check_clock(const Entry& entry, MutableDocuments& documents, const json& job) {
  if (!job.contains("fog_ended")) return;
  const Moment from = read_moment(job.at("fog_ended"));
  const Moment to = moment_of(entry.happened_ms, entry.body);
  if (const std::int64_t shift = clock_shift_ms(from, to); std::abs(shift) > clock_slack_ms)
    raise_about(entry, documents, job, "clock-set-in-hold",
                fmt::format("the device's clock was set {} by {} min during the hold",
                            shift > 0 ? "forward" : "back", std::abs(shift) / 60'000));
  else if (to.ms < from.ms)
    raise_about(entry, documents, job, "clock-set-in-hold", "the device's clock reads earlier than fog-off");
  if (!from.clock.boot.empty() && from.clock.boot != to.clock.boot)
    raise_about(entry, documents, job, "hold-by-calendar",
                "another boot or another device than at fog-off: only the calendar told the hold");
}

void check_products(const Entry& entry, MutableDocuments& documents, const json& job) {
  if (auto ok = products_may_meet(documents, job); !ok)
    raise_about(entry, documents, job, "incompatible-products", ok.error().message);
}

void check_actor(const Entry& entry, MutableDocuments& documents, const json& job) {
  const std::string by = entry.body.at("by");
  if (!is_active(documents, by))
    raise_about(entry, documents, job, "unknown-name",
                fmt::format("nobody in the active crew is called \"{}\"", by));
}

}  // namespace fogwright
