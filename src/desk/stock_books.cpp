// SPDX-License-Identifier: Apache-2.0
#include "desk/stock_books.hpp"

#include <cstdlib>

#include "desk/fold_parts.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::size_t jobs_kept = 20;

/// Cost of a volume from a vessel: a batch costs what its parts cost. What is put back takes off what taking it
/// added.
std::optional<std::int64_t> cost_from(const Vessel& vessel, std::int64_t ul) {
  Container as_bought;
  as_bought.size_ul = vessel.capacity_ul();
  if (vessel.body.contains("cost_cents")) as_bought.cost_cents = vessel.body["cost_cents"].get<std::int64_t>();
  const auto cents = cost_of(as_bought, std::abs(ul));
  return cents && ul < 0 ? -*cents : cents;
}

json item_use(const Documents& documents, const std::string& item) {
  return documents.get("item-use", item).value_or(json{{"item", item}, {"jobs", json::array()}});
}

}  // namespace

void keep_vessel(MutableDocuments& documents, const Vessel& vessel) {
  documents.put(vessel.kind, vessel.id, vessel.body, vessel.remaining_ul() > 0 && !vessel.disposed());
}

void note_movement(const Entry& entry, MutableDocuments& documents, const std::string& vessel,
                   std::int64_t change_ul, const json& more) {
  json log = documents.get("movements", vessel).value_or(json{{"rows", json::array()}});
  json row = more;
  row.update({{"seq", entry.seq},
              {"at_ms", entry.happened_ms},
              {"actor", entry.actor},
              {"what", entry.kind},
              {"ul", change_ul}});
  log["rows"].push_back(std::move(row));
  documents.put("movements", vessel, log, true);
}

void note_count(const Entry& entry, MutableDocuments& documents, const Vessel& vessel,
                std::int64_t variance_ul) {
  documents.put("count", sequence_key(entry.seq),
                {{"seq", entry.seq},
                 {"at_ms", entry.happened_ms},
                 {"by", entry.actor},
                 {"of", vessel.id},
                 {"product", vessel.text("product")},
                 {"place", vessel.text("place")},
                 {"size_ul", vessel.capacity_ul()},
                 {"variance_ul", variance_ul}},
                true);
}

void count_one(MutableDocuments& documents, const std::string& kind) {
  json count = documents.get("numbering", kind).value_or(json{{"last", 0}});
  count["last"] = count["last"].get<std::int64_t>() + 1;
  documents.put("numbering", kind, count, true);
}

void note_use(const Entry& entry, MutableDocuments& documents, const std::string& item, std::int64_t ul) {
  const std::string day = day_of(entry.happened_ms);
  json use = documents.get("use", use_key(item, day)).value_or(json{{"item", item}, {"day", day}, {"ul", 0}});
  use["ul"] = use["ul"].get<std::int64_t>() + ul;
  documents.put("use", use_key(item, day), use, true);
}

void note_job_use(MutableDocuments& documents, const std::string& item, const std::string& job,
                  std::int64_t ul) {
  if (job.empty()) return;
  json use = item_use(documents, item);
  json& jobs = use["jobs"];
  for (json& row : jobs)
    if (row["job"] == job) {
      row["ul"] = row["ul"].get<std::int64_t>() + ul;
      return documents.put("item-use", item, use, true);
    }
  jobs.push_back({{"job", job}, {"ul", ul}});
  if (jobs.size() > jobs_kept) jobs.erase(jobs.begin());
  documents.put("item-use", item, use, true);
}

void note_job_draw(MutableDocuments& documents, const Vessel& vessel, const std::string& job, std::int64_t ul) {
  if (job.empty()) return;
  json of_job = documents.get("job-draws", job).value_or(json{{"job", job}, {"draws", json::array()}});
  json draw = {
      {"from", vessel.id}, {"product", vessel.text("product")}, {"lot", vessel.text("lot")}, {"ul", ul}};
  if (const auto cents = cost_from(vessel, ul)) draw["cost_cents"] = *cents;
  of_job["draws"].push_back(std::move(draw));
  documents.put("job-draws", job, of_job, true);
}

}  // namespace fogwright
