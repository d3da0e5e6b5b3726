// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <algorithm>

#include "desk/vessels.hpp"
#include "trace/facts.hpp"

namespace fogwright {
namespace {

using namespace trace;
using nlohmann::json;

bool same_word(const std::string& a, const std::string& b) {
  const auto small = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [&](char x, char y) { return small(x) == small(y); });
}

/// The vessels that hold or held something of the lot.
struct Spread {
  std::vector<Vessel> containers, batches;
  std::set<std::string> ids, products;
  std::string lot;  ///< as the containers print it
  std::vector<std::string> notes;
};

/// The lot as the container prints it, or as it was entered before that was put right; empty where it is
/// another.
std::string lot_by(const json& container, const std::string& asked) {
  if (const std::string lot = container.at("lot"); same_word(lot, asked)) return lot;
  for (const json& earlier : container.value("earlier_lots", json::array()))
    if (const std::string lot = earlier; same_word(lot, asked)) return lot;
  return {};
}

Spread spread_of(const Documents& documents, const std::string& lot) {
  Spread spread;
  documents.each("container", false, [&](const std::string& id, const json& body) {
    const std::string found_by = lot_by(body, lot);
    if (found_by.empty()) return;
    spread.containers.push_back({"container", id, body});
    spread.ids.insert(id);
    spread.products.insert(item_of(body));
    spread.lot = found_by;
    auto earlier = body.value("earlier_lots", std::vector<std::string>());
    std::erase(earlier, body.at("lot").get<std::string>());  // put right, and back again
    if (!earlier.empty())
      spread.notes.push_back(
          fmt::format("{} was entered under lot {}, and put right to lot {}: it is found by each", id,
                      fmt::join(earlier, ", "), body.at("lot").get<std::string>()));
  });
  documents.each("batch", false, [&](const std::string& id, const json& body) {
    const json& parts = body.at("parts");
    const bool holds = std::any_of(parts.begin(), parts.end(), [&](const json& part) {
      return spread.ids.contains(part.at("container").get<std::string>());
    });
    if (holds) spread.batches.push_back({"batch", id, body});
  });
  for (const Vessel& batch : spread.batches) spread.ids.insert(batch.id);
  return spread;
}

std::string left_words(const Asked& asked, const Vessel& vessel) {
  if (vessel.disposed()) return "disposed of";
  if (vessel.remaining_ul() <= 0) return "empty";
  return fmt::format("{} left in {}", volume_text(asked, vessel.remaining_ul()), vessel.text("place"));
}

AnswerRow vessel_row(const Asked& asked, const Vessel& vessel) {
  const char* const when = vessel.is_batch() ? "mixed_ms" : "received_ms";
  AnswerRow row;
  row.label = vessel.id;
  row.words = fmt::format("{} of {}, {} {}; {}", vessel.kind, vessel.text("product"),
                          vessel.is_batch() ? "mixed" : "received",
                          day_of(vessel.body.at(when).get<std::int64_t>()), left_words(asked, vessel));
  row.data = {{"what", vessel.kind},
              {"id", vessel.id},
              {"day", day_of(vessel.body.at(when).get<std::int64_t>())},
              {"product", vessel.text("product")},
              {"place", vessel.text("place")},
              {"remaining_ul", vessel.disposed() ? 0 : vessel.remaining_ul()},
              {"disposed", vessel.disposed()}};
  return row;
}

/// What the job drew out of these vessels; 0 where they were noted and nothing was drawn yet.
std::int64_t drawn_from(const Documents& documents, const json& job, const std::set<std::string>& ids) {
  std::int64_t ul = 0;
  if (const auto draws = documents.get("job-draws", job.at("job").get<std::string>()))
    for (const json& draw : draws->at("draws"))
      if (ids.contains(draw.at("from").get<std::string>())) ul += draw.at("ul").get<std::int64_t>();
  return ul;
}

std::set<std::string> shared(const std::set<std::string>& a, const std::set<std::string>& b) {
  std::set<std::string> both;
  std::set_intersection(a.begin(), a.end(), b.begin(), b.end(), std::inserter(both, both.end()));
  return both;
}

AnswerRow job_row(const Asked& asked, Labels& labels, const json& job, const Spread& spread) {
  const auto through = shared(vessels_of_job(asked.documents, job), spread.ids);
  const Site site = site_of(asked, job);
  const std::int64_t ul = drawn_from(asked.documents, job, spread.ids);
  AnswerRow row;
  row.data = job_data(asked, labels, job);
  row.label = row.data.at("job");
  row.words = fmt::format("{} {}, {} out of {}; {}", row.data.at("day").get<std::string>(),
                          job.at("state").get<std::string>(),
                          ul > 0 ? volume_text(asked, ul) : "nothing drawn yet", joined(through), site.words());
  row.data.erase("lots");
  row.data["what"] = "job";
  row.data["id"] = row.data["job"];
  row.data["through"] = through;
  row.data["drawn_ul"] = ul;
  row.data["address"] = site.address;
  row.data["customer"] = site.customer;
  row.data["address_erased"] = site.kept == Site::Kept::erased;
  return row;
}

std::string sentence_of(const Asked& asked, const Spread& spread, const std::vector<AnswerRow>& jobs) {
  std::int64_t left = 0;
  std::set<std::string> places, days;
  for (const auto* vessels : {&spread.containers, &spread.batches})
    for (const Vessel& vessel : *vessels) {
      if (vessel.disposed() || vessel.remaining_ul() <= 0) continue;
      left += vessel.remaining_ul();
      places.insert(vessel.text("place"));
    }
  for (const AnswerRow& job : jobs) days.insert(job.data.at("day").get<std::string>());
  return fmt::format(
      "Lot {} ({}): {}{} and {}{}; {}.", spread.lot, joined(spread.products),
      counted(spread.containers.size(), "container", "containers"),
      spread.batches.empty() ? "" : ", " + counted(spread.batches.size(), "batch", "batches"),
      counted(jobs.size(), "job", "jobs"), span_words(days),
      left > 0 ? fmt::format("{} left in {}", volume_text(asked, left), joined(places)) : "nothing is left");
}

}  // namespace

Result<Answer> ask_lot(const Asked& asked, const std::string& lot) {
  if (lot.empty())
    return fail(ErrorCode::missing_value, "no lot is given", {}, "write e.g. fogwright ask lot A17");
  const Spread spread = spread_of(asked.documents, lot);
  if (spread.containers.empty())
    return fail(ErrorCode::not_found, fmt::format("no container of lot \"{}\" was ever received", lot), {},
                "copy the lot from the container; fogwright stock list --format csv shows what is on hand");
  Labels labels(asked.documents);
  std::vector<AnswerRow> jobs;
  const auto touched = [&](const json& job) {
    return !shared(vessels_of_job(asked.documents, job), spread.ids).empty();
  };
  for (const json& job : jobs_by_day(asked, touched)) jobs.push_back(job_row(asked, labels, job, spread));
  Answer answer;
  answer.sentence = sentence_of(asked, spread, jobs);
  for (const auto* vessels : {&spread.containers, &spread.batches})
    for (const Vessel& vessel : *vessels) answer.rows.push_back(vessel_row(asked, vessel));
  for (AnswerRow& job : jobs) answer.rows.push_back(std::move(job));
  answer.notes = spread.notes;
  return answer;
}

}  // namespace fogwright
