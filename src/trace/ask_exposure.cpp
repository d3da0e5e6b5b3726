// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>
#include <map>

#include "desk/job_document.hpp"
#include "desk/vessels.hpp"
#include "trace/facts.hpp"

namespace fogwright {
namespace {

using namespace trace;
using nlohmann::json;

/// What one active came to over all rows.
struct Sum {
  std::string name;
  std::size_t rows = 0;
  std::int64_t minutes = 0;                               ///< fogged or stood by
  std::optional<std::int64_t> peak_ug_m3, reading_ug_m3;  ///< the highest
};
using Sums = std::map<std::string, Sum>;

bool mixed_for(const Asked& asked, const json& job, const std::string& handle) {
  const auto vessels = vessels_of_job(asked.documents, job);
  return std::any_of(vessels.begin(), vessels.end(), [&](const std::string& id) {
    const auto batch = asked.documents.get("batch", id);
    return batch && batch->at("mixed_by") == handle;
  });
}

bool took_a_reading(const json& job, const std::string& handle) {
  const json& readings = job.at("readings");
  return std::any_of(readings.begin(), readings.end(), [&](const json& one) { return one.at("by") == handle; });
}

std::vector<std::string> roles_in(const Asked& asked, const json& job, const std::string& handle) {
  std::vector<std::string> roles;
  if (!was_fogged(job)) return roles;
  if (mixed_for(asked, job, handle)) roles.emplace_back("mixed");
  if (job.at("technician") == handle) roles.emplace_back("fogged");
  for (const char* item : {"standby-person", "standby-rescue"})
    if (evidence_text(job, item, "person") == handle && (roles.empty() || roles.back() != "stood by"))
      roles.emplace_back("stood by");
  if (took_a_reading(job, handle)) roles.emplace_back("took readings");
  return roles;
}

/// Between the first fog and the last, rounded up; nothing while it runs.
std::optional<std::int64_t> minutes_of_fog(const json& job) {
  if (!job.contains("fog_ended")) return std::nullopt;
  const auto ms =
      job["fog_ended"].at("ms").get<std::int64_t>() - job["fog_started"].at("ms").get<std::int64_t>();
  return std::max<std::int64_t>(0, (ms + 59'999) / 60'000);
}

/// What was on the technician's face: the facepiece, the cartridge, and how long it was worn.
json respirator_data(const json& job) {
  json worn = json::object();
  const json* facepiece = met_of(job, "respirator-facepiece");
  if (facepiece)
    worn["facepiece"] = fmt::format("{} {}", facepiece->at("evidence").value("facepiece", std::string()),
                                    facepiece->at("evidence").value("model", std::string()));
  for (const char* item : {"cartridge-words", "cartridge-hours", "cartridge-hours-added"})
    if (const std::string cartridge = evidence_text(job, item, "cartridge"); !cartridge.empty())
      worn["cartridge"] = cartridge;
  if (const json* added = met_of(job, "cartridge-hours-added"))
    worn["worn_minutes"] = added->at("evidence").value("minutes", std::int64_t{0});
  return worn;
}

std::string respirator_words(const json& data) {
  if (!data.contains("facepiece") && !data.contains("cartridge")) return "no respirator noted";
  std::string words = data.value("facepiece", std::string("respirator"));
  if (data.contains("cartridge")) words += fmt::format(", cartridge {}", data["cartridge"].get<std::string>());
  if (data.contains("worn_minutes"))
    words += fmt::format(", worn {} min", data["worn_minutes"].get<std::int64_t>());
  return words;
}

std::vector<std::string> readings_of(const json& job) {
  std::vector<std::string> readings;
  for (const json& one : job.at("readings"))
    readings.push_back(
        fmt::format("{} of {}", one.at("typed").get<std::string>(), one.at("substance").get<std::string>()));
  return readings;
}

std::string modelled_words(const Modelled& modelled) {
  if (!modelled.fault.empty()) return "peak not modelled: " + modelled.fault;
  std::string words;
  for (const ModelledPeak& peak : modelled.peaks)
    words += (words.empty() ? "modelled peak " : ", ") +
             (peak.ug_m3 ? fmt::format("{} of {}", concentration_text(*peak.ug_m3), peak.name)
                         : fmt::format("of {} not estimable", peak.name));
  return words;
}

json peaks_json(const Modelled& modelled) {
  json list = json::array();
  for (const ModelledPeak& peak : modelled.peaks)
    list.push_back({{"cas", peak.cas},
                    {"name", peak.name},
                    {"modelled_peak_ug_m3", peak.ug_m3 ? json(*peak.ug_m3) : json(nullptr)}});
  return list;
}

void keep_highest(std::optional<std::int64_t>& highest, std::optional<std::int64_t> value) {
  if (value && (!highest || *value > *highest)) highest = value;
}

/// Readings come in by what they read, the peaks by what the label's actives give off.
void add_up(Sums& sums, const Label* label, const json& job, const Modelled& modelled,
            std::optional<std::int64_t> minutes) {
  if (!label) return;
  for (const Active& active : label->actives) {
    Sum& sum = sums[active.released_cas.value_or(active.cas)];
    sum.name = active.released_name.value_or(active.name);
    ++sum.rows;
    sum.minutes += minutes.value_or(0);
  }
  for (const ModelledPeak& peak : modelled.peaks)
    if (const auto sum = sums.find(peak.cas); sum != sums.end())
      keep_highest(sum->second.peak_ug_m3, peak.ug_m3);
  for (const json& one : job.at("readings"))
    if (const auto sum = sums.find(one.at("substance").get<std::string>()); sum != sums.end())
      keep_highest(sum->second.reading_ug_m3, one.at("ug_m3").get<std::int64_t>());
}

std::vector<std::string> active_names(const Label* label) {
  std::vector<std::string> names;
  if (label)
    for (const Active& active : label->actives)
      names.push_back(fmt::format("{} ({})", active.name, active.cas));
  return names;
}

AnswerRow job_row(const Asked& asked, Labels& labels, const json& job, const std::vector<std::string>& roles,
                  Sums& sums) {
  const Label* label = labels.find(job.at("label_digest").get<std::string>());
  const bool fogged = std::find(roles.begin(), roles.end(), "fogged") != roles.end();
  const auto minutes = minutes_of_fog(job);
  const Modelled modelled = asked.model ? asked.model(job.at("job").get<std::string>()) : Modelled{};
  AnswerRow row;
  row.data = job_data(asked, labels, job);
  row.data.update({{"what", "job"},
                   {"roles", roles},
                   {"actives", active_names(label)},
                   {"readings", readings_of(job)},
                   {"fog_minutes", minutes ? json(*minutes) : json(nullptr)},
                   {"modelled", peaks_json(modelled)}});
  if (fogged) row.data.update(respirator_data(job));
  row.label = row.data.at("day");
  std::vector<std::string> parts = {minutes ? fmt::format("{} min of fog", *minutes) : "fog runs"};
  if (fogged) parts.push_back(respirator_words(row.data));
  if (!row.data["readings"].empty()) parts.push_back(fmt::format("read {}", fmt::join(readings_of(job), ", ")));
  if (std::string model = modelled_words(modelled); !model.empty()) parts.push_back(std::move(model));
  row.words =
      fmt::format("{}: {}; {}", product_words(row.data), fmt::join(roles, ", "), fmt::join(parts, "; "));
  add_up(sums, label, job, modelled, minutes);
  return row;
}

/// What the person mixed and no job was fogged with.
AnswerRow batch_row(Labels& labels, const json& batch, Sums& sums) {
  const Label* label = labels.find(batch.at("label_digest").get<std::string>());
  const bool worn = batch.value("respirator_worn", false);
  AnswerRow row;
  row.label = day_of(batch.at("mixed_ms").get<std::int64_t>());
  row.data = {{"what", "batch"},
              {"batch", batch.at("batch")},
              {"day", row.label},
              {"product", batch.at("product")},
              {"name", label ? label->name : batch.at("product").get<std::string>()},
              {"registration", label ? label->registration : std::string()},
              {"roles", json::array({"mixed"})},
              {"actives", active_names(label)},
              {"respirator_worn", worn}};
  row.words =
      fmt::format("batch {} of {}: mixed{}", batch.at("batch").get<std::string>(),
                  row.data["name"].get<std::string>(), worn ? ", respirator worn" : ", no respirator noted");
  if (label)
    for (const Active& active : label->actives) {
      Sum& sum = sums[active.released_cas.value_or(active.cas)];
      sum.name = active.released_name.value_or(active.name);
      ++sum.rows;
    }
  return row;
}

AnswerRow total_row(const std::string& cas, const Sum& sum) {
  const auto figure = [](const std::optional<std::int64_t>& ug) { return ug ? json(*ug) : json(nullptr); };
  AnswerRow row;
  row.label = cas;
  row.words = fmt::format("{}: {}, {} min of fog in all", sum.name, counted(sum.rows, "exposure", "exposures"),
                          sum.minutes);
  if (sum.peak_ug_m3) row.words += "; highest modelled peak " + concentration_text(*sum.peak_ug_m3);
  if (sum.reading_ug_m3) row.words += "; highest reading " + concentration_text(*sum.reading_ug_m3);
  row.data = {{"cas", cas},
              {"name", sum.name},
              {"exposures", sum.rows},
              {"fog_minutes", sum.minutes},
              {"highest_modelled_peak_ug_m3", figure(sum.peak_ug_m3)},
              {"highest_reading_ug_m3", figure(sum.reading_ug_m3)}};
  return row;
}

std::string sentence_of(const std::string& handle, const Answer& answer, const Sums& sums) {
  std::set<std::string> days, names;
  for (const AnswerRow& row : answer.rows) days.insert(row.data.at("day").get<std::string>());
  for (const auto& [cas, sum] : sums) names.insert(sum.name);
  if (answer.rows.empty()) return fmt::format("The book knows of no exposure of {}.", handle);
  return fmt::format("{}: {}{}, to {}.", handle, counted(answer.rows.size(), "exposure", "exposures"),
                     span_words(days), joined(names));
}

/// Batches of the person that no job was fogged with; those of a job stand in its row.
void add_spare_batches(const Asked& asked, Labels& labels, const std::string& handle,
                       const std::set<std::string>& used, Answer& answer, Sums& sums) {
  asked.documents.each("batch", false, [&](const std::string& id, const json& batch) {
    if (batch.at("mixed_by") == handle && !used.contains(id))
      answer.rows.push_back(batch_row(labels, batch, sums));
  });
  std::stable_sort(answer.rows.begin(), answer.rows.end(), [](const AnswerRow& a, const AnswerRow& b) {
    return a.data.at("day").get<std::string>() < b.data.at("day").get<std::string>();
  });
}

}  // namespace

Result<Answer> ask_exposure(const Asked& asked, const std::string& handle) {
  if (!asked.documents.get("person", handle))
    return fail(ErrorCode::not_found, fmt::format("nobody was ever called \"{}\"", handle), {},
                "fogwright crew list shows who there is");
  Labels labels(asked.documents);
  Answer answer;
  Sums sums;
  std::set<std::string> used;
  for (const json& job : jobs_by_day(asked, was_fogged)) {
    const auto roles = roles_in(asked, job, handle);
    used.merge(vessels_of_job(asked.documents, job));
    if (!roles.empty()) answer.rows.push_back(job_row(asked, labels, job, roles, sums));
  }
  add_spare_batches(asked, labels, handle, used, answer, sums);
  for (const auto& [cas, sum] : sums) answer.totals.push_back(total_row(cas, sum));
  answer.sentence = sentence_of(handle, answer, sums);
  if (asked.model && !answer.rows.empty())
    answer.notes.emplace_back(
        "A modelled peak is what the whole active would come to in the building's air at fog-off, planned "
        "again from "
        "the record; it is no measurement, and not what passed a respirator.");
  if (!answer.rows.empty())
    answer.notes.emplace_back("Exposure records are kept for 30 years (29 CFR 1910.1020(d)(1)(ii)).");
  return answer;
}

}  // namespace fogwright
