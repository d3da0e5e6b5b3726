// SPDX-License-Identifier: Apache-2.0
#include "asking/device_documents.hpp"

#include <set>
#include <string>

#include "desk/fold_parts.hpp"
#include "desk/vessels.hpp"
#include "fogwright/desk/views.hpp"

namespace fogwright {
namespace {

using nlohmann::json;
using Keys = std::set<std::string, std::less<>>;

/// Small, and asked about at every turn: whole.
constexpr const char* whole_kinds[] = {"person",    "credential", "firm",        "fogger",
                                       "cartridge", "product",    "place",       "reorder",
                                       "numbering", "clock",      "label-facts", "item-use"};

class Collection {
 public:
  Collection(const Documents& now, std::int64_t now_ms) : now_(now), now_ms_(now_ms) {}

  json collect() {
    for (const char* kind : whole_kinds)
      add_kind(kind, [](const std::string&, const json&, bool) { return true; });
    add_jobs();
    for (const char* kind : {"container", "batch"}) add_vessels(kind);
    add_labels();
    add_use();
    add_departures();
    return std::move(rows_);
  }

 private:
  template <class Wanted>
  void add_kind(const char* kind, Wanted wanted) {
    Keys live;
    now_.each(kind, true, [&](const std::string& key, const json&) { live.insert(key); });
    now_.each(kind, false, [&](const std::string& key, const json& body) {
      if (wanted(key, body, live.contains(key))) add(kind, key, body, live.contains(key));
    });
  }

  void add(const char* kind, const std::string& key, const json& body, bool live) {
    rows_.push_back({{"kind", kind}, {"key", key}, {"body", body}, {"live", live}});
  }
  void add_one(const char* kind, const std::string& key) {
    if (const auto body = now_.get(kind, key)) add(kind, key, *body, true);
  }

  [[nodiscard]] bool is_recent(std::int64_t ms) const { return ms >= now_ms_ - recent_days * day_ms; }

  void add_jobs() {
    add_kind("job", [&](const std::string& key, const json& job, bool live) {
      if (!live && !is_recent(job.value("last_ms", std::int64_t{0}))) return false;
      jobs_.insert(key);
      labels_.insert(job.value("label_digest", std::string()));
      return true;
    });
    for (const std::string& job : jobs_)
      for (const char* kind : {"job-request", "job-draws"}) add_one(kind, job);
  }

  [[nodiscard]] bool moved_lately(const std::string& vessel) const {
    const auto log = now_.get("movements", vessel);
    return log && !log->at("rows").empty() && is_recent(log->at("rows").back().value("at_ms", std::int64_t{0}));
  }

  void add_vessels(const char* kind) {
    Keys vessels;
    add_kind(kind, [&](const std::string& key, const json&, bool live) {
      if (!live && !moved_lately(key)) return false;
      vessels.insert(key);
      return true;
    });
    for (const std::string& vessel : vessels) add_one("movements", vessel);
  }

  void add_labels() {
    now_.each("product", false, [&](const std::string&, const json& product) {
      labels_.insert(product.value("current", std::string()));
    });
    for (const std::string& digest : labels_) add_one("label", digest);
  }

  void add_use() {
    const std::string first_day = day_of(now_ms_ - (demand_days + 1) * day_ms);
    add_kind("use", [&](const std::string&, const json& use, bool) {
      return use.value("day", std::string()) >= first_day;
    });
  }

  void add_departures() {
    add_kind("departure", [&](const std::string&, const json& departure, bool) {
      return jobs_.contains(departure.value("job", std::string()));
    });
  }

  const Documents& now_;
  std::int64_t now_ms_;
  json rows_ = json::array();
  Keys jobs_, labels_;
};

}  // namespace

json device_documents(const Documents& now, std::int64_t now_ms) { return Collection(now, now_ms).collect(); }

}  // namespace fogwright
