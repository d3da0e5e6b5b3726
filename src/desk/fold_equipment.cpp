// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>
#include <cmath>

#include "desk/fold_parts.hpp"
#include "desk/job_document.hpp"
#include "desk/label_facts.hpp"
#include "fogwright/stock.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr auto large_drift_ppm = static_cast<std::int64_t>(large_drift * 1e6);

std::optional<json> thing_of(const Entry& entry, MutableDocuments& documents, const char* kind,
                             const std::string& name) {
  auto thing = documents.get(kind, name);
  if (!thing) raise(entry, documents, "unknown-name", fmt::format("no {} is called \"{}\"", kind, name));
  return thing;
}

/// The members of a body that are there, copied.
void copy(const json& from, json& to, std::initializer_list<const char*> members) {
  for (const char* member : members)
    if (from.contains(member)) to[member] = from[member];
}

void fogger_added(const Entry& entry, MutableDocuments& documents) {
  json fogger = {{"fogger", entry.body.at("fogger")}, {"active", true}, {"tests", json::array()}};
  copy(entry.body, fogger, {"tank_ul", "empty_mg"});
  documents.put("fogger", fogger["fogger"].get<std::string>(), fogger, true);
}

void fogger_tested(const Entry& entry, MutableDocuments& documents) {
  const std::string name = entry.body.at("fogger");
  auto fogger = thing_of(entry, documents, "fogger", name);
  if (!fogger) return;
  json test = {{"on", entry.body.at("on")}, {"runs", entry.body.at("runs").size()}};
  for (const char* member : {"flow_ul_min", "low_ul_min", "high_ul_min", "spread_ppm"})
    test[member] = entry.body.at(member).get<std::int64_t>();
  copy(entry.body, test, {"drift_ppm"});
  test["seq"] = entry.seq;
  const std::int64_t drift = test.value("drift_ppm", std::int64_t{0});
  Sequence before;
  if (const json& tests = fogger->at("tests"); !tests.empty()) add_seq(before, tests.back());
  (*fogger)["tests"].push_back(std::move(test));
  documents.put("fogger", name, *fogger, fogger->at("active"));
  // The first test compares with nothing: its drift is missing and counts as none.
  if (std::abs(drift) > large_drift_ppm)
    raise(entry, documents, "fogger-drift",
          fmt::format("fogger {} gives {}.{} % {} than at the test before", name, std::abs(drift) / 10'000,
                      std::abs(drift) / 1'000 % 10, drift < 0 ? "less" : "more"),
          {{"fogger", name}}, before);
}

void cartridge_registered(const Entry& entry, MutableDocuments& documents) {
  json cartridge = {{"active", true}, {"used_minutes", 0}, {"seqs", json::array({entry.seq})}};
  for (const char* member : {"cartridge", "model", "words", "schedule_minutes", "basis"})
    cartridge[member] = entry.body.at(member);
  documents.put("cartridge", cartridge["cartridge"].get<std::string>(), cartridge, true);
}

/// The job knows what it has booked, so that nothing is booked twice.
void note_wear(const Entry& entry, MutableDocuments& documents, const std::string& cartridge,
               std::int64_t minutes) {
  const std::string id = entry.body.value("job", std::string());
  auto job = documents.get("job", id);
  if (!job) return;
  json& booked = (*job)["worn_booked"][cartridge];
  booked = minutes + (booked.is_null() ? 0 : booked.get<std::int64_t>());
  documents.put("job", id, *job, is_live(*job));
}

void cartridge_used(const Entry& entry, MutableDocuments& documents) {
  const std::string name = entry.body.at("cartridge");
  const std::int64_t minutes = std::max<std::int64_t>(0, entry.body.at("minutes").get<std::int64_t>());
  auto cartridge = thing_of(entry, documents, "cartridge", name);
  if (!cartridge) return;
  const std::int64_t used = cartridge->at("used_minutes").get<std::int64_t>() + minutes;
  (*cartridge)["used_minutes"] = used;
  const Sequence before = cartridge->value("seqs", Sequence{});
  (*cartridge)["seqs"].push_back(entry.seq);
  documents.put("cartridge", name, *cartridge, cartridge->at("active"));
  note_wear(entry, documents, name, minutes);
  json about = {{"cartridge", name}};
  copy(entry.body, about, {"job"});
  if (!cartridge->at("active").get<bool>())
    raise(entry, documents, "retired-cartridge-used",
          fmt::format("cartridge {} was worn after it was retired", name), about, before);
  if (const auto schedule = cartridge->at("schedule_minutes").get<std::int64_t>(); used > schedule)
    raise(entry, documents, "cartridge-overrun",
          fmt::format("cartridge {} was worn {} min; its change schedule is {} min", name, used, schedule),
          about, before);
}

template <const char* kind>
void thing_retired(const Entry& entry, MutableDocuments& documents) {
  const std::string name = entry.body.at(kind);
  auto thing = thing_of(entry, documents, kind, name);
  if (!thing) return;
  (*thing)["active"] = false;
  if (thing->contains("seqs")) (*thing)["seqs"].push_back(entry.seq);
  documents.put(kind, name, *thing, false);
}
constexpr char fogger_kind[] = "fogger";
constexpr char cartridge_kind[] = "cartridge";

void label_adopted(const Entry& entry, MutableDocuments& documents) {
  const json& body = entry.body;
  const std::string key = body.at("product");
  const std::string digest = body.at("digest");
  const std::string text = body.at("text");
  json product = documents.get("product", key).value_or(json{{"product", key}, {"versions", json::array()}});
  for (const char* member : {"name", "registration"}) product[member] = body.at(member);
  product["current"] = digest;
  // The text of an earlier adoption, adopted again, is one version and no longer retired.
  json kept = json::array();
  for (const json& version : product["versions"])
    if (version["digest"] != digest) kept.push_back(version);
  kept.push_back({{"digest", digest}, {"label_date", body.at("label_date")}, {"entry", uuid_text(entry.id)}});
  product["versions"] = std::move(kept);
  documents.put("product", key, product, true);
  documents.put("label", digest, {{"product", key}, {"text", text}}, true);
  const auto label = read_label(text, key);
  if (label)
    documents.put("label-facts", digest, label_facts(*label, key), true);
  else
    raise(entry, documents, "unreadable-label",
          fmt::format("the profile of {} cannot be read: {}", key, label.error().front().message),
          {{"product", key}});
}

void label_retired(const Entry& entry, MutableDocuments& documents) {
  const std::string key = entry.body.at("product");
  const std::string digest = entry.body.at("digest");
  auto product = thing_of(entry, documents, "product", key);
  if (!product) return;
  std::string newest;  // of those that are left
  for (json& version : (*product)["versions"]) {
    if (version["digest"] == digest) version["retired"] = entry.body.at("why");
    if (!version.contains("retired")) newest = version["digest"];
  }
  (*product)["current"] = newest;
  documents.put("product", key, *product, !newest.empty());
}

constexpr FoldRow equipment_rows[] = {
    {"fogger-added", fogger_added},
    {"fogger-tested", fogger_tested},
    {"fogger-retired", thing_retired<fogger_kind>},
    {"cartridge-registered", cartridge_registered},
    {"cartridge-used", cartridge_used},
    {"cartridge-retired", thing_retired<cartridge_kind>},
    {"label-adopted", label_adopted},
    {"label-retired", label_retired},
};

}  // namespace

std::span<const FoldRow> equipment_fold() { return equipment_rows; }

}  // namespace fogwright
