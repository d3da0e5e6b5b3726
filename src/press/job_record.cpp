// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "desk/job_document.hpp"
#include "desk/job_hold.hpp"
#include "desk/vessels.hpp"
#include "press/parts.hpp"

namespace fogwright::press {

using nlohmann::json;
using paper::Word;

namespace {

std::int64_t number(const json& in, const char* member) { return in.at(member).get<std::int64_t>(); }

// --- Planned ------------------------------------------------------------------------------------------------

constexpr Unit<Dimension::area> square_millimetre{1e-6};
std::string area_words(const Source& source, const json& plan) {
  std::int64_t mm2 = 0;
  for (const json& system : plan.at("systems")) mm2 += number(system, "area_mm2");
  return show(FloorArea(static_cast<double>(mm2), square_millimetre), source.units);
}

std::string fog_time_words(const Source& source, const json& job) {
  std::int64_t low = 0, high = 0;
  for (const json& system : job.at("plan").at("systems")) {
    low += system.at("band_s").at(0).get<std::int64_t>();
    high += system.at("band_s").at(1).get<std::int64_t>();
  }
  return word(source.language, Word::seconds_band, target_seconds(job), low, high);
}

std::string hold_text(const Source& source, const json& plan) {
  const HoldTime hold(static_cast<double>(number(plan.at("hold_minutes"), "total")), unit::minute);
  return word(source.language, Word::governed_by, show(hold),
              translated(source.language, Word::hold_grounds, plan.at("governs").get<std::string>()));
}

std::string respirator_words(const Source& source, const json& plan) {
  const json& need = plan.at("respirator");
  if (need.at("do_not_enter").get<bool>()) return word(source.language, Word::do_not_enter);
  if (!need.at("required").get<bool>()) return word(source.language, Word::no_respirator);
  std::string words = need.at("facepiece");
  for (const json& cartridge : need.at("cartridges")) words += ", " + cartridge.get<std::string>();
  return words;
}

/// What a newer program would plan otherwise; the record stands.
std::string planned_again(const Source& source, const std::string& job) {
  const auto again = replan(source.now, job);
  return again ? fmt::format("{}", fmt::join(again->differences, "\n")) : std::string();
}

std::vector<paper::Fact> plan_facts(const Source& source, const json& job) {
  const json& plan = job.at("plan");
  const json& volume = plan.at("volume_ul");
  const auto say = [&](Word key) { return word(source.language, key); };
  std::vector<paper::Fact> facts = {
      {say(Word::area), area_words(source, plan)},
      {say(Word::fog_time), fog_time_words(source, job)},
      {say(Word::volume), word(source.language, Word::at_most,
                               recorded_volume(number(volume, "target"), source.units, Rounding::up),
                               recorded_volume(number(volume, "high"), source.units, Rounding::up))},
      {say(Word::hold), hold_text(source, plan)},
      {say(Word::respirator), respirator_words(source, plan)}};
  if (const std::string again = planned_again(source, job.at("job")); !again.empty())
    facts.push_back({say(Word::planned_again), again});
  return facts;
}

std::string fogger_words(const Source& source, const json& job) {
  const json& plan = job.at("plan");
  const LiquidFlow flow(static_cast<double>(number(plan, "flow_ul_min")), unit::microlitre_per_minute);
  const std::string basis =
      translated(source.language, Word::flow_bases, plan.at("flow_basis").get<std::string>());
  const std::string name = job.value("fogger", std::string());
  return fmt::format("{}{}{} ({})", name, name.empty() ? "" : ", ", show(flow, source.units), basis);
}

// --- Done ---------------------------------------------------------------------------------------------------

std::string at_words(const Source& source, const json& job, std::int64_t ms, bool with_zone = true) {
  return time_words(local(source, job, ms), with_zone);
}

std::string measured_words(const Source& source, const std::string& how) {
  if (how == "before-and-after") return word(source.language, Word::measured_twice);
  if (how == "by-time") return word(source.language, Word::reckoned);
  return word(source.language, Word::recorded_afterwards);
}

std::string ground_words(const Source& source, const std::string& ground) {
  if (ground == "time") return word(source.language, Word::by_time);
  if (ground == "readings") return word(source.language, Word::by_readings);
  return word(source.language, Word::recorded_afterwards);
}

std::string fog_words(const Source& source, const json& job) {
  const std::string from = at_words(source, job, number(job.at("fog_started"), "ms"));
  if (!job.contains("fog_ended")) return from;
  return word(source.language, Word::from_to, from, at_words(source, job, number(job["fog_ended"], "ms")));
}

std::vector<paper::Fact> done_facts(const Source& source, const json& job) {
  std::vector<paper::Fact> facts;
  const auto add = [&](Word key, std::string value) {
    facts.push_back({word(source.language, key), std::move(value)});
  };
  if (job.contains("fog_started")) add(Word::fog, fog_words(source, job));
  if (job.contains("used_ul"))
    add(Word::used, fmt::format("{} ({})", recorded_volume(number(job, "used_ul"), source.units),
                                measured_words(source, job.value("measured", std::string()))));
  if (job.contains("released")) {
    const json& released = job["released"];
    add(Word::released, fmt::format("{}, {} ({})", at_words(source, job, up_to_minute(number(released, "ms"))),
                                    released.at("by").get<std::string>(),
                                    ground_words(source, released.at("ground").get<std::string>())));
  }
  if (job.contains("stopped")) {
    const json& stopped = job["stopped"];
    add(Word::stopped, fmt::format("{}, {}: {}", at_words(source, job, number(stopped, "ms")),
                                   stopped.at("by").get<std::string>(), stopped.at("why").get<std::string>()));
  }
  return facts;
}

std::vector<paper::ReturnLine> return_lines(const Source& source, const json& job) {
  std::vector<paper::ReturnLine> lines;
  for (const json& system : job.at("plan").at("systems"))
    for (const json& one : system.at("returns")) {
      const std::string name = system.at("name");
      const std::string intake = one.at("name");
      const std::int64_t ms = fogged_ms(job, name, intake);
      lines.push_back(
          {name, intake,
           word(source.language, Word::seconds_band, number(one, "seconds"),
                one.at("band_s").at(0).get<std::int64_t>(), one.at("band_s").at(1).get<std::int64_t>()),
           ms > 0 ? fmt::format("{}.{} s", ms / 1'000, ms / 100 % 10) : std::string("—")});
    }
  return lines;
}

std::string lot_words(const Source& source, const json& job) {
  std::vector<std::string> words;
  if (const auto draws = source.now.get("job-draws", job.at("job").get<std::string>()))
    for (const json& draw : draws->at("draws"))
      words.push_back(fmt::format("{}, {}, {}{}", draw.at("from").get<std::string>(),
                                  lot_of_draw(source.now, draw), number(draw, "ul") < 0 ? "-" : "",
                                  recorded_volume(std::abs(number(draw, "ul")), source.units)));
  if (words.empty()) return evidence_text(job, "lot-noted", "lot");
  return fmt::format("{}", fmt::join(words, "\n"));
}

// --- Gate, readings, departures -----------------------------------------------------------------------------

std::string list_words(const json& value) {
  if (value.is_array()) return fmt::format("{}", fmt::join(value.get<std::vector<std::string>>(), ", "));
  return value.is_string() ? value.get<std::string>() : value.dump();
}

/// What was shown, without what stands in other columns or in another unit.
std::string evidence_words(const Source& source, const json& evidence) {
  std::vector<std::string> words;
  for (const char* member : {"typed", "facepiece", "model", "size", "cartridge", "count", "person", "from",
                             "lot", "read", "expires"})
    if (evidence.contains(member)) words.push_back(list_words(evidence[member]));
  if (evidence.contains("photo"))
    words.push_back("SHA-256 " + evidence["photo"].get<std::string>().substr(0, 16) + "…");
  if (words.empty()) return word(source.language, Word::confirmed);
  return fmt::format("{}", fmt::join(words, ", "));
}

std::vector<paper::GateLine> gate_lines(const Source& source, const json& job) {
  std::vector<paper::GateLine> lines;
  for (const Need& need : needs_of(job)) {
    const json* met = met_of(job, need.id);
    if (!met) continue;
    paper::GateLine line;
    line.what = need.rule ? requirement_words({need.rule, need.value}) : need.id;
    line.met_by = met->at("by");
    line.at = at_words(source, job, number(*met, "at_ms"), false);
    line.evidence = evidence_words(source, met->at("evidence"));
    if (need.rule) line.citation = need.rule->citation;
    lines.push_back(std::move(line));
  }
  return lines;
}

std::vector<paper::ReadingLine> reading_lines(const Source& source, const json& job) {
  std::vector<paper::ReadingLine> lines;
  for (const json& one : job.at("readings")) {
    const std::string cas = one.at("substance");
    const Substance* known = find_substance(cas);
    lines.push_back(
        {at_words(source, job, number(one, "ms"), false),
         known ? fmt::format("{} ({})", known->name, cas) : cas, one.at("typed"),
         word(source.language, one.at("fan_running").get<bool>() ? Word::running : Word::not_running)});
  }
  return lines;
}

std::vector<std::string> departure_lines(const Source& source, const std::string& job) {
  std::vector<std::string> lines;
  source.now.each("departure", false, [&](const std::string&, const json& one) {
    if (one.value("job", std::string()) == job)
      lines.push_back(fmt::format(
          "{}: {}", translated(source.language, Word::severities, one.at("severity").get<std::string>()),
          one.at("what").get<std::string>()));
  });
  return lines;
}

}  // namespace

Result<paper::JobRecord> job_record(const Source& source, const std::string& id) {
  const auto found = job_and_label(source, id);
  if (!found) return tl::make_unexpected(found.error());
  const json& job = found->job;
  auto proof = proof_of(source, job);
  if (!proof) return tl::make_unexpected(proof.error());
  const Site site = site_of(source, job);
  paper::JobRecord facts;
  facts.job = id;
  facts.state = translated(source.language, Word::job_states, job.at("state").get<std::string>());
  facts.customer = site.customer;
  facts.address = site.address;
  facts.technician = job.at("technician");
  facts.van = job.value("van", std::string());
  facts.fogger = fogger_words(source, job);
  facts.product = product_facts(found->label, source.language);
  facts.lots = lot_words(source, job);
  facts.plan = plan_facts(source, job);
  facts.actual = done_facts(source, job);
  facts.returns = return_lines(source, job);
  facts.gate = gate_lines(source, job);
  facts.readings = reading_lines(source, job);
  facts.departures = departure_lines(source, id);
  if (auto curves = concentration_curves(source, id)) facts.curve = std::move(curves->front());
  facts.proof = std::move(*proof);
  return facts;
}

}  // namespace fogwright::press
