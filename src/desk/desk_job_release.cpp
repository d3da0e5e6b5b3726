// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <cmath>

#include "desk/checks.hpp"
#include "desk/job_gate.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::int64_t largest_ug_m3 = 1'000'000'000'000;

Result<void> check_fog_was_let_out(const json& job) {
  if (job.contains("fog_ended")) return {};
  return fail(ErrorCode::wrong_state, "no fog was let out: nothing is to be released", {},
              "nothing is left to do");
}

/// A mistyped number would keep the building shut: no reading of it could ever answer for it.
Result<void> check_substance(const json& job, const std::string& substance) {
  std::string known;
  for (const json& limit : job.at("plan").at("limits")) {
    if (limit.at("cas") == substance) return {};
    known += fmt::format("{}{} ({})", known.empty() ? "" : ", ", limit.at("cas").get<std::string>(),
                         limit.at("name").get<std::string>());
  }
  if (find_substance(substance)) return {};
  return fail(ErrorCode::not_found, fmt::format("\"{}\" is no substance that is known here", substance),
              "--substance",
              known.empty() ? "write its CAS number, e.g. 7722-84-1"
                            : fmt::format("write the CAS number of what was read: {}", known));
}

/// The hold first, then what must be done before anybody goes in.
std::optional<Error> release_refusal(const DeskContext& context, const json& job, const HoldState& hold,
                                     const LocalDay& today) {
  if (!hold.ready) return hold.ready.error();
  const auto open = missing_in(context.documents, job, Stage::before_release, context.now_ms, today);
  if (!open.empty()) return gate_error(job, open);
  return std::nullopt;
}

}  // namespace

Result<std::int64_t> read_reading(const std::string& substance, const std::string& typed) {
  const auto to_micrograms = [](double mg_m3) {
    return static_cast<std::int64_t>(std::ceil(mg_m3 * 1e3 - 1e-6));
  };
  std::int64_t value = 0;
  if (const auto at = typed.find("ppm"); at != std::string::npos) {
    const auto ppm = read_number(typed.substr(0, at), "--value");
    if (!ppm) return tl::make_unexpected(ppm.error());
    const Substance* known = find_substance(substance);
    if (!known)
      return fail(ErrorCode::not_found, fmt::format("the molar mass of {} is not known", substance), "--value",
                  "give the reading in mg/m3");
    value = to_micrograms(mg_per_m3_from_ppm(*ppm, known->molar_mass));
  } else {
    const auto read = read_mass_concentration(typed, "--value");
    if (!read) return tl::make_unexpected(read.error());
    value = read->ceil_in(unit::microgram_per_cubic_metre);
  }
  if (value >= 0 && value <= largest_ug_m3) return value;
  return fail(ErrorCode::out_of_range, fmt::format("\"{}\" is no reading of air", typed), "--value",
              "write e.g. '0.02 mg/m3'");
}

Result<Drafts> take_reading(const DeskContext& context, const std::string& id, const NewReading& reading) {
  if (auto ok = first_error(
          {may_make(context, "reading-taken"), check_name(reading.substance, "substance", "--substance")});
      !ok)
    return tl::make_unexpected(ok.error());
  const auto job = find_job(context.documents, id);
  if (!job) return tl::make_unexpected(job.error());
  if (auto ok = check_fog_was_let_out(*job); !ok) return tl::make_unexpected(ok.error());
  if (auto ok = check_substance(*job, reading.substance); !ok) return tl::make_unexpected(ok.error());
  if (reading.ug_m3 < 0 || reading.ug_m3 > largest_ug_m3)
    return fail(ErrorCode::out_of_range, "a reading is zero or more", "--value", "write e.g. '0.02 mg/m3'");
  json body = {{"job", id},
               {"substance", reading.substance},
               {"ug_m3", reading.ug_m3},
               {"typed", reading.typed},
               {"fan_running", reading.fan_running},
               {"clock", clock_json(context.clock)}};
  if (!reading.instrument.empty()) body["instrument"] = reading.instrument;
  return Drafts{draft(context, "reading-taken", std::move(body))};
}

Result<Decision> release_job(const DeskContext& context, const std::string& id, const Calendar& calendar) {
  if (auto ok = may_make(context, "job-released"); !ok) return tl::make_unexpected(ok.error());
  const auto job = find_job(context.documents, id);
  if (!job) return tl::make_unexpected(job.error());
  if (const auto next = check_step(*job, JobStep::release); !next) return tl::make_unexpected(next.error());
  if (auto ok = check_fog_was_let_out(*job); !ok) return tl::make_unexpected(ok.error());
  if (job->contains("released"))
    return fail(ErrorCode::wrong_state, fmt::format("job {} was released before", id), {},
                "nothing is left to do");
  const auto hold = hold_state(*job, moment_of(context));
  const LocalDay today = calendar(job->at("zone").get<std::string>(), context.now_ms);
  const json clock = clock_json(context.clock);
  if (auto refusal = release_refusal(context, *job, *hold, today))
    return Decision{
        {draft(context, "release-refused", {{"job", id}, {"why", refusal->message}, {"clock", clock}})},
        refusal};
  return Decision{{draft(context, "job-released",
                         {{"job", id}, {"ground", hold->by_time ? "time" : "readings"}, {"clock", clock}})},
                  std::nullopt};
}

}  // namespace fogwright
