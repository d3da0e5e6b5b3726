// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "asking/zone_time.hpp"
#include "cli/desk_call.hpp"
#include "cli/job_commands.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/sha256.hpp"

namespace fogwright {
namespace {

constexpr std::size_t largest_photo = 64'000'000;

/// A step that takes nothing but the job.
template <class Step>
Outcome plain_step(const Call& call, std::string_view done, Step step) {
  OptionReader options(call);
  options.operands(1, 1, "the job");
  if (options.fault()) return refuse(*options.fault());
  const std::string id = options.operand();
  return write_to_book(
      call, [&](const DeskContext& context) { return step(context, id); },
      [&](const Drafts&) { return fmt::format("Job {} {}.", id, done); });
}

/// A step that can be refused and written down at once.
template <class Step>
Outcome refusable_step(const Call& call, std::string_view done, Step step) {
  std::optional<Error> refusal;
  OptionReader options(call);
  options.operands(1, 1, "the job");
  if (options.fault()) return refuse(*options.fault());
  const std::string id = options.operand();
  auto outcome = write_to_book(
      call,
      [&](const DeskContext& context) -> Result<Drafts> {
        auto decision = step(context, id);
        if (!decision) return tl::make_unexpected(decision.error());
        refusal = std::move(decision->refusal);
        return std::move(decision->drafts);
      },
      [&](const Drafts&) {
        return refusal ? fmt::format("Job {}: refused; the refusal is written down.", id)
                       : fmt::format("Job {} {}.", id, done);
      });
  if (outcome && refusal) return refuse(std::move(*refusal));
  return outcome;
}

Result<std::string> photo_digest(const Call& call) {
  const auto file = call.options.text("photo");
  if (!file) return std::string();
  const auto bytes = read_file(*file, largest_photo);
  if (!bytes) return tl::make_unexpected(bytes.error());
  const Hash hash = sha256(*bytes);
  return to_hex({reinterpret_cast<const char*>(hash.data()), hash.size()});
}

/// The words after the item: an answer needs no quotes.
std::string answer_in(const Call& call) {
  std::string answer;
  for (std::size_t i = 2; i < call.options.operands().size(); ++i)
    answer += (answer.empty() ? "" : " ") + call.options.operands()[i];
  return answer;
}

Result<std::string> zone_of(Store& store, const std::string& id) {
  std::string zone;
  store.read([&](const Documents& now, const Head&) {
    if (const auto job = now.get("job", id)) zone = job->at("zone").get<std::string>();
  });
  if (zone.empty())
    return fail(ErrorCode::not_found, fmt::format("no job is called \"{}\"", id), {},
                "fogwright job list shows the jobs");
  return zone;
}

/// "hall=42 s": the name and what is said of it.
std::pair<std::string, std::string> split(const std::string& typed) {
  const auto at = std::min(typed.find('='), typed.size());
  return {typed.substr(0, at), at < typed.size() ? typed.substr(at + 1) : std::string()};
}

std::int64_t fog_ms(OptionReader& options, const std::string& typed, const std::string& where) {
  return options.take(read_fog_time(typed, where)).floor_in(unit::millisecond);
}

Result<LateRecord> read_record(OptionReader& options, const std::string& zone) {
  LateRecord record;
  record.why_late = options.needed("why", "'no phone'");
  record.started_ms =
      options.take(read_local_time(options.needed("started", "'2026-03-04 14:05'"), zone, false, "--started"));
  record.ended_ms =
      options.take(read_local_time(options.needed("ended", "'2026-03-04 14:09'"), zone, true, "--ended"));
  if (options.on("released"))
    record.released_ms = options.take(read_local_time(options.text("released"), zone, false, "--released"));
  record.used_ul = options.volume_if_given("used", Rounding::up);
  for (const std::string& typed : options.all("return")) {
    const auto [name, time] = split(typed);
    record.returns.push_back({{}, name, fog_ms(options, time, "--return")});
  }
  for (const std::string& typed : options.all("met")) record.met.push_back(split(typed));
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return record;
}

}  // namespace

Outcome run_job_check(const Call& call) {
  OptionReader options(call);
  options.operands(3, 12, "job, item and answer");
  if (options.fault()) return refuse(*options.fault());
  const auto photo = photo_digest(call);
  if (!photo) return refuse(photo.error());
  const std::string item = options.operand(1);
  return write_to_book(
      call,
      [&](const DeskContext& context) {
        return meet_requirement(context, options.operand(0), item, answer_in(call), system_calendar(), *photo);
      },
      [&](const Drafts&) { return fmt::format("{} is met.", item); });
}

Outcome run_job_lapse(const Call& call) {
  OptionReader options(call);
  const bool all = options.on("entered") || options.on("doffed");
  options.operands(all ? 1 : 2, all ? 1 : 40, all ? "the job" : "job and item");
  const std::string why = options.needed("why", "'the owner fetched a coat'");
  if (options.fault()) return refuse(*options.fault());
  const std::string id = options.operand();
  return write_to_book(
      call,
      [&](const DeskContext& context) -> Result<Drafts> {
        if (options.on("entered")) return lapse_all(context, id, Lapse::when_someone_enters, why);
        if (options.on("doffed")) return lapse_all(context, id, Lapse::at_each_donning, why);
        Drafts drafts;
        for (std::size_t i = 1; i < call.options.operands().size(); ++i) {
          auto more = lapse_requirement(context, id, options.operand(i), why);
          if (!more) return more;
          drafts.push_back(std::move(more->front()));
        }
        return drafts;
      },
      [](const Drafts& drafts) { return fmt::format("{} item(s) open again.", drafts.size()); });
}

Outcome run_job_clear(const Call& call) {
  return plain_step(call, "is cleared", [](const DeskContext& context, const std::string& id) {
    return clear_job(context, id, system_calendar());
  });
}

Outcome run_job_start(const Call& call) {
  return refusable_step(call, "has started: motor on first, then the valve to a fine mist",
                        [](const DeskContext& context, const std::string& id) {
                          return start_job(context, id, system_calendar());
                        });
}

Outcome run_job_fogged(const Call& call) {
  OptionReader options(call);
  options.operands(2, 2, "job and return");
  const std::int64_t ms = fog_ms(options, options.needed("time", "'42 s'"), "--time");
  if (options.fault()) return refuse(*options.fault());
  return write_to_book(
      call,
      [&](const DeskContext& context) {
        return record_return(context, options.operand(0), options.text("system"), options.operand(1), ms);
      },
      [&](const Drafts& drafts) {
        return fmt::format("{}: {}.{} s written down; the plan says {} s.", options.operand(1), ms / 1'000,
                           ms / 100 % 10, drafts.front().body.at("planned_s").get<std::int64_t>());
      });
}

Outcome run_job_fog_off(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the job");
  FogOff off;
  off.left_ul = options.volume_if_given("left", Rounding::down);
  off.added_ul = options.volume_if_given("added", Rounding::up).value_or(0);
  off.left_typed = options.text("left");
  if (options.fault()) return refuse(*options.fault());
  return write_to_book(
      call, [&](const DeskContext& context) { return end_fog(context, options.operand(), off); },
      [&](const Drafts&) {
        return fmt::format("Job {}: fog-off. The hold runs: nobody goes in.", options.operand());
      });
}

Outcome run_job_reading(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the job");
  NewReading reading;
  reading.substance = options.needed("substance", "10049-04-4");
  reading.typed = options.needed("value", "'0.02 mg/m3'");
  reading.fan_running = options.on("fan-running");
  reading.instrument = options.text("instrument");
  if (options.fault()) return refuse(*options.fault());
  const auto value = read_reading(reading.substance, reading.typed);
  if (!value) return refuse(value.error());
  reading.ug_m3 = *value;
  return write_to_book(
      call, [&](const DeskContext& context) { return take_reading(context, options.operand(), reading); },
      [&](const Drafts&) { return fmt::format("The reading of {} is written down.", reading.substance); });
}

Outcome run_job_release(const Call& call) {
  return refusable_step(call, "is released: people and animals may go in",
                        [](const DeskContext& context, const std::string& id) {
                          return release_job(context, id, system_calendar());
                        });
}

Outcome run_job_close(const Call& call) {
  return plain_step(call, "is closed", [](const DeskContext& context, const std::string& id) {
    return close_job(context, id, system_calendar());
  });
}

Outcome run_job_stop(const Call& call) {
  const std::string why = call.options.text("why").value_or("");
  return plain_step(
      call, "is stopped; where fog was let out the hold runs on",
      [&](const DeskContext& context, const std::string& id) { return stop_job(context, id, why); });
}

Outcome run_job_record(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the job");
  if (options.fault()) return refuse(*options.fault());
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  const auto zone = zone_of(**store, options.operand());
  if (!zone) return refuse(zone.error());
  const auto record = read_record(options, *zone);
  if (!record) return refuse(record.error());
  return write_to_book(
      call, **store,
      [&](const DeskContext& context) {
        return record_job(context, options.operand(), *record, system_calendar());
      },
      [&](const Drafts&) { return fmt::format("Job {} is recorded afterwards.", options.operand()); });
}

}  // namespace fogwright
