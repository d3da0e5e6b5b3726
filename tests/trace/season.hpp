// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>

#include "desk/job_world.hpp"
#include "fogwright/trace.hpp"

/// The vocabulary of the tests of questions: jobs of any product, address, flow and date, written as another
/// program may have written them, since the gate is not what is asked about.
namespace trace_test {

using namespace desk_test;
using nlohmann::json;

struct PastJob {
  std::string id;
  std::string product = "fenmist-rtu";
  std::string technician = "rowan";
  std::string site;  ///< hash; empty: no address
  std::string fogger;
  std::string vessel;  ///< drawn for it
  std::int64_t used_ul = 400'000;
  std::int64_t flow_ul_min = 180'000;
  std::int64_t fog_ms = 126'000;
  bool measured = true;
};

class Season {
 public:
  Season() : shop(Shop::open()) { shop.receive("C1", "fenmist-rtu", 4 * litre, "2027-01-31"); }

  /// A job that is planned, fogged and ended now.
  void fog(const PastJob& past) {
    plan(past);
    shop.write("fog-started", {{"job", past.id}});
    shop.write("return-fogged", {{"job", past.id},
                                 {"system", "main"},
                                 {"return", "hall"},
                                 {"planned_s", 126},
                                 {"actual_ms", past.fog_ms}});
    shop.wait(past.fog_ms);
    shop.write("fog-ended", {{"job", past.id},
                             {"used_ul", past.used_ul},
                             {"measured", past.measured ? "before-and-after" : "by-time"}});
    if (!past.vessel.empty())
      shop.write("drawn", {{"from", past.vessel}, {"ul", past.used_ul}, {"job", past.id}});
  }
  void plan(const PastJob& past) {
    json body = {{"job", past.id},
                 {"zone", "America/Chicago"},
                 {"site", past.site},
                 {"product", past.product},
                 {"label_digest", shop.document("product", past.product).at("current")},
                 {"technician", past.technician},
                 {"request", json::object()},
                 {"plan", plan_of(past.flow_ul_min)}};
    if (!past.fogger.empty()) body["fogger"] = past.fogger;
    shop.write("job-planned", body);
  }
  /// The next day, at the same hour.
  void sleep() { shop.wait(24 * hour_ms); }
  void keep(const std::string& hash, const std::string& customer, const std::string& address) {
    kept[hash] = json{{"customer", customer}, {"address", address}}.dump();
  }
  [[nodiscard]] Asked asked() const {
    return {shop.book(),
            [this](const std::string& hash) {
              const auto found = kept.find(hash);
              return found == kept.end() ? std::nullopt : std::optional(found->second);
            },
            chicago, UnitSystem::us_customary};
  }

  Shop shop;
  std::map<std::string, std::string> kept;

 private:
  /// 126 s in one return, at this flow; the band is a seventh to either side.
  static json plan_of(std::int64_t flow_ul_min) {
    const std::int64_t target = flow_ul_min * 126 / 60;
    return {
        {"systems",
         {{{"name", "main"},
           {"area_mm2", 222'967'296},
           {"band_s", {108, 144}},
           {"target_s", 126},
           {"returns", {{{"name", "hall"}, {"seconds", 126}, {"band_s", {108, 144}}}}}}}},
        {"volume_ul", {{"low", flow_ul_min * 108 / 60}, {"target", target}, {"high", flow_ul_min * 144 / 60}}},
        {"load_ul", target},
        {"flow_ul_min", flow_ul_min},
        {"flow_basis", "measured"},
        {"hold_minutes",
         {{"policy", 0}, {"haze", 30}, {"floor", 30}, {"total", 30}, {"readings_needed", false}}},
        {"governs", "haze"},
        {"respirator", json::object()},
        {"requirements", json::array()},
        {"limits", json::array()},
        {"estimable", true},
        {"warnings", json::array()}};
  }
};

/// One member of every row.
inline std::vector<json> column(const Answer& answer, const char* member) {
  std::vector<json> values;
  for (const AnswerRow& row : answer.rows) values.push_back(row.data.value(member, json()));
  return values;
}

inline bool says(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace trace_test
