// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <cmath>

#include "desk/checks.hpp"
#include "desk/vessels.hpp"
#include "fogwright/desk/equipment.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::int64_t longest_schedule_minutes = 365 * 24 * 60;
std::int64_t nearest(double value) { return static_cast<std::int64_t>(std::llround(value)); }

json run_list(const std::vector<CatchTest>& runs) {
  json list = json::array();
  for (const CatchTest& run : runs)
    list.push_back({{"caught_ul", nearest(run.caught.value_in(unit::microlitre))},
                    {"time_ms", nearest(run.time.value_in(unit::millisecond))}});
  return list;
}

/// Bounds are rounded outwards, the flow to the nearest microlitre a minute.
json test_body(const std::string& fogger, const std::string& on, const std::vector<CatchTest>& runs,
               const Calibration& calibration) {
  return {{"fogger", fogger},
          {"on", on},
          {"runs", run_list(runs)},
          {"flow_ul_min", nearest(calibration.flow.value_in(unit::microlitre_per_minute))},
          {"low_ul_min", calibration.low.floor_in(unit::microlitre_per_minute)},
          {"high_ul_min", calibration.high.ceil_in(unit::microlitre_per_minute)},
          {"spread_ppm", nearest(std::ceil(calibration.relative_spread * 1e6))}};
}

/// Change against the test before, in millionths.
std::optional<std::int64_t> drift_ppm(const json& fogger, std::int64_t flow_ul_min) {
  const json& tests = fogger.at("tests");
  if (tests.empty()) return std::nullopt;
  const auto then = tests.back().at("flow_ul_min").get<std::int64_t>();
  if (then <= 0 || flow_ul_min <= 0) return std::nullopt;
  return nearest(flow_drift(static_cast<double>(flow_ul_min), static_cast<double>(then)) * 1e6);
}

Result<void> check_day(const DeskContext& context, const std::string& on) {
  if (const auto date = read_date(on, "the day of the test", "--on"); !date)
    return tl::make_unexpected(date.error());
  if (on <= day_of(context.now_ms + day_ms)) return {};
  return fail(ErrorCode::out_of_range, fmt::format("{} is in the future", on), "--on", "check the date");
}

Result<void> check_minutes(std::int64_t minutes, std::string_view where) {
  if (minutes > 0 && minutes <= longest_schedule_minutes) return {};
  return fail(ErrorCode::out_of_range, fmt::format("{} min is not 1 min to a year", minutes),
              std::string(where), "write e.g. '8 h'");
}

Result<void> check_printed_words(const std::vector<std::string>& words) {
  if (words.empty())
    return fail(ErrorCode::missing_value, "the words on the cartridge are not given", "--words",
                "copy them, e.g. --words 'organic vapor/acid gas' --words P100; its colour does not count");
  for (const std::string& word : words)
    if (auto ok = check_words(word, "a word on the cartridge", "--words"); !ok) return ok;
  return {};
}

}  // namespace

Result<Drafts> add_fogger(const DeskContext& context, const NewFogger& fogger) {
  if (auto ok = first_error({may_make(context, "fogger-added"), check_name(fogger.name, "fogger", {}),
                             check_free(context.documents, "fogger", fogger.name, {})});
      !ok)
    return tl::make_unexpected(ok.error());
  json body = {{"fogger", fogger.name}};
  if (fogger.tank) {
    body["tank_ul"] = fogger.tank->floor_in(unit::microlitre);
    if (auto ok = check_volume(body["tank_ul"], "--tank"); !ok) return tl::make_unexpected(ok.error());
  }
  if (fogger.empty_mass) body["empty_mg"] = fogger.empty_mass->ceil_in(unit::milligram);
  if (!fogger.note.empty()) body["note"] = fogger.note;
  return Drafts{draft(context, "fogger-added", std::move(body))};
}

Result<Drafts> record_catch_test(const DeskContext& context, const std::string& fogger,
                                 const std::vector<CatchTest>& runs, const std::string& on) {
  const std::string day = on.empty() ? day_of(context.now_ms) : on;
  if (auto ok = first_error({may_make(context, "fogger-tested"), check_day(context, day)}); !ok)
    return tl::make_unexpected(ok.error());
  const auto known = find_active(context.documents, "fogger", fogger, {});
  if (!known) return tl::make_unexpected(known.error());
  const auto calibration = calibrate(runs);
  if (!calibration) return tl::make_unexpected(calibration.error());
  json body = test_body(fogger, day, runs, *calibration);
  if (const auto drift = drift_ppm(*known, body["flow_ul_min"])) body["drift_ppm"] = *drift;
  return Drafts{draft(context, "fogger-tested", std::move(body))};
}

Result<Drafts> retire_fogger(const DeskContext& context, const std::string& fogger, const std::string& why) {
  if (auto ok = first_error({may_make(context, "fogger-retired"), check_words(why, "the reason", "--why")});
      !ok)
    return tl::make_unexpected(ok.error());
  if (const auto known = find_active(context.documents, "fogger", fogger, {}); !known)
    return tl::make_unexpected(known.error());
  return Drafts{draft(context, "fogger-retired", {{"fogger", fogger}, {"why", why}})};
}

Result<Drafts> register_cartridge(const DeskContext& context, const NewCartridge& cartridge) {
  if (auto ok = first_error(
          {may_make(context, "cartridge-registered"), check_name(cartridge.name, "cartridge", {}),
           check_free(context.documents, "cartridge", cartridge.name, {}),
           check_words(cartridge.model, "the model", "--model"), check_printed_words(cartridge.words),
           check_minutes(cartridge.schedule_minutes, "--schedule"),
           check_words(cartridge.basis, "where the change schedule comes from", "--basis")});
      !ok)
    return tl::make_unexpected(ok.error());
  return Drafts{draft(context, "cartridge-registered",
                      {{"cartridge", cartridge.name},
                       {"model", cartridge.model},
                       {"words", cartridge.words},
                       {"schedule_minutes", cartridge.schedule_minutes},
                       {"basis", cartridge.basis}})};
}

Result<Drafts> use_cartridge(const DeskContext& context, const std::string& cartridge, std::int64_t minutes,
                             const std::string& job, const std::string& worn_by) {
  if (auto ok = first_error({may_make(context, "cartridge-used"), check_minutes(minutes, "--worn")}); !ok)
    return tl::make_unexpected(ok.error());
  if (const auto known = find(context.documents, "cartridge", cartridge, {}); !known)
    return tl::make_unexpected(known.error());
  if (const auto person = find(context.documents, "person", worn_by, "--worn-by"); !person)
    return tl::make_unexpected(person.error());
  json body = {{"cartridge", cartridge}, {"minutes", minutes}, {"by", worn_by}};
  if (!job.empty()) body["job"] = job;
  return Drafts{draft(context, "cartridge-used", std::move(body))};
}

Result<Drafts> retire_cartridge(const DeskContext& context, const std::string& cartridge,
                                const std::string& why) {
  if (auto ok = first_error({may_make(context, "cartridge-retired"), check_words(why, "the reason", "--why")});
      !ok)
    return tl::make_unexpected(ok.error());
  if (const auto known = find_active(context.documents, "cartridge", cartridge, {}); !known)
    return tl::make_unexpected(known.error());
  return Drafts{draft(context, "cartridge-retired", {{"cartridge", cartridge}, {"why", why}})};
}

}  // namespace fogwright
