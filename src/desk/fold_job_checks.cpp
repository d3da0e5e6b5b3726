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
/// Company policy: what is drawn for a job and what it used agree to this share.
constexpr std::int64_t draw_share = 20;  // 1 in 20

std::string_view rule_for(const Missing& missing) {
  const Rule* rule = find_rule(missing.requirement);
  return rule && rule->evidence == Evidence::credential ? "credential-lapsed" : "start-without-item";
}

std::string seconds_words(std::int64_t ms) { return fmt::format("{}.{} s", ms / 1'000, ms / 100 % 10); }

}  // namespace

Sequence entries_of(const json& job, std::initializer_list<const char*> members) {
  Sequence entries;
  for (const char* member : members)
    if (const auto part = job.find(member); part != job.end()) add_seq(entries, *part);
  return entries;
}

void raise_about(const Entry& entry, MutableDocuments& documents, const json& job, std::string_view rule,
                 std::string what, Sequence shown_by) {
  json about = {{"job", job.at("job")}, {"person", entry.actor}, {"product", job.at("product")}};
  if (job.contains("van")) about["van"] = job["van"];
  raise(entry, documents, rule, std::move(what), std::move(about), std::move(shown_by));
}

void check_start(const Entry& entry, MutableDocuments& documents, const json& job, std::int64_t at_ms,
                 const LocalDay& day) {
  const auto product = documents.get("product", job.at("product").get<std::string>());
  const bool same_label = product && product->at("current") == job.at("label_digest");
  if (!same_label)
    raise_about(entry, documents, job, "label-changed", "the label was replaced after the plan was made",
                entries_of(job, {"planned_seq"}));
  for (const Missing& missing : missing_for_start(documents, job, at_ms, day)) {
    const bool about_label = missing.requirement == "label-read" && !same_label && met_of(job, "label-read");
    if (!about_label)
      raise_about(entry, documents, job, rule_for(missing),
                  fmt::format("{}: {}", missing.requirement, missing.why), entries_of(job, {"planned_seq"}));
  }
  // Who records a job afterwards need not be who fogged it.
  if (entry.kind != "job-recorded" && entry.actor != job.at("technician"))
    raise_about(
        entry, documents, job, "wrong-person",
        fmt::format("{} fogged; the gate was met for {}", entry.actor, job.at("technician").get<std::string>()),
        entries_of(job, {"planned_seq"}));
  check_products(entry, documents, job);
}

namespace {

std::pair<std::int64_t, std::int64_t> band_of(const json& one) {
  return {one.at("band_s").at(0).get<std::int64_t>(), one.at("band_s").at(1).get<std::int64_t>()};
}

/// The plan, and the fog at one return of a system; without a name at all of them.
Sequence shown_by_fog(const json& job, const json& system, const std::string& name = {}) {
  Sequence shown = entries_of(job, {"planned_seq"});
  for (const json& one : job.at("returns"))
    if (one.at("system") == system.at("name") && (name.empty() || one.at("return") == name))
      add_seq(shown, one);
  return shown;
}

/// The band is in whole seconds: its last second counts to its end.
bool above_band(const json& one, std::int64_t ms) { return ms >= (band_of(one).second + 1) * 1'000; }
bool off_band(const json& one, std::int64_t ms) {
  return ms < band_of(one).first * 1'000 || above_band(one, ms);
}

std::string off_band_words(const json& one, std::int64_t ms) {
  const auto [low, high] = band_of(one);
  return fmt::format("{} was fogged {}; the band is {} to {} s", one.at("name").get<std::string>(),
                     seconds_words(ms), low, high);
}

/// Each return, and each system as a whole, that is `off`.
void check_bands(const Entry& entry, MutableDocuments& documents, const json& job,
                 bool (*off)(const json& one, std::int64_t ms)) {
  for (const json& system : job.at("plan").at("systems")) {
    std::int64_t total_ms = 0;
    for (const json& one : system.at("returns")) {
      const std::string name = one.at("name");
      const std::int64_t ms = fogged_ms(job, system.at("name").get<std::string>(), name);
      if (off(one, ms))
        raise_about(entry, documents, job, "time-off-band", off_band_words(one, ms),
                    shown_by_fog(job, system, name));
      total_ms += ms;
    }
    if (off(system, total_ms))
      raise_about(entry, documents, job, "total-off-band", off_band_words(system, total_ms),
                  shown_by_fog(job, system));
  }
}

}  // namespace

void check_dose(const Entry& entry, MutableDocuments& documents, const json& job) {
  check_bands(entry, documents, job, off_band);
}

void check_too_much(const Entry& entry, MutableDocuments& documents, const json& job) {
  check_bands(entry, documents, job, above_band);
}

void note_use_of_job(const Entry& entry, MutableDocuments& documents, const json& job) {
  if (!job.contains("used_ul") || job.value("measured", std::string()) == "by-time") return;
  json use = {{"seq", entry.seq},
              {"at_ms", entry.happened_ms},
              {"planned_ul", job.at("plan").at("volume_ul").at("target")}};
  for (const char* member : {"job", "technician", "product", "fogger", "van", "used_ul"})
    if (job.contains(member)) use[member] = job[member];
  documents.put("job-use", sequence_key(entry.seq), use, true);
}

void check_volume(const Entry& entry, MutableDocuments& documents, const json& job) {
  if (!job.contains("used_ul") || job.value("measured", std::string()) == "by-time") return;
  const auto used = job["used_ul"].get<std::int64_t>();
  const auto planned = job.at("plan").at("volume_ul").at("target").get<std::int64_t>();
  if (std::abs(used - planned) * volume_share <= planned) return;
  raise_about(entry, documents, job, "volume-off-plan",
              fmt::format("{} was used; the plan was {}", volume_words(used), volume_words(planned)),
              entries_of(job, {"planned_seq"}));
}

void check_release(const Entry& entry, MutableDocuments& documents, const json& job, const Moment& moment) {
  const auto hold = hold_state(job, moment);
  if (!hold || hold->ready) return;
  // Past the part that must pass in full, readings could have released: then it is them that were wanting.
  const bool by_readings =
      hold->elapsed_ms >= hold->floor_ms && (hold->readings_needed || !job.at("readings").empty() ||
                                             entry.body.value("ground", std::string()) == "readings");
  Sequence shown = entries_of(job, {"planned_seq", "fog_ended"});
  for (const json& reading : job.at("readings")) add_seq(shown, reading);
  raise_about(entry, documents, job, by_readings ? "readings-not-kept" : "hold-not-kept",
              hold->ready.error().message, std::move(shown));
}

void check_before_release(const Entry& entry, MutableDocuments& documents, const json& job,
                          std::int64_t at_ms) {
  if (!job.contains("fog_ended")) return;
  const auto missing = missing_in(documents, job, Stage::before_release, at_ms, {});
  if (!missing.empty())
    raise_about(entry, documents, job, "released-without-item", missing_words(missing),
                entries_of(job, {"fog_ended"}));
}

void check_draws(const Entry& entry, MutableDocuments& documents, const json& job) {
  if (!job.contains("used_ul")) return;
  const auto used = job["used_ul"].get<std::int64_t>();
  const std::int64_t drawn = drawn_ul(documents, job);
  // A job of before the book: what it used was never received into it.
  if (drawn == 0 && job.contains("recorded_seq")) return;
  if (std::abs(drawn - used) * draw_share <= used) return;
  raise_about(entry, documents, job, "draw-off-use",
              fmt::format("{} was drawn from stock; the job used {}", volume_words(drawn), volume_words(used)),
              entries_of(job, {"fog_ended"}));
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
                            shift > 0 ? "forward" : "back", std::abs(shift) / 60'000),
                entries_of(job, {"fog_ended"}));
  else if (to.ms < from.ms)
    raise_about(entry, documents, job, "clock-set-in-hold", "the device's clock reads earlier than fog-off",
                entries_of(job, {"fog_ended"}));
  if (!from.clock.boot.empty() && from.clock.boot != to.clock.boot)
    raise_about(entry, documents, job, "hold-by-calendar",
                "another boot or another device than at fog-off: only the calendar told the hold",
                entries_of(job, {"fog_ended"}));
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
