// SPDX-License-Identifier: Apache-2.0
// Counts, the person outside, airflow.
#include <fmt/format.h>

#include "desk/job_items.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

std::optional<std::int64_t> whole(std::string_view text) {
  std::int64_t value = 0;
  if (text.empty() || text.size() > 6) return std::nullopt;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return value;
}

Result<json> read_count(const GateView&, const Need& need, const std::string& typed) {
  const auto count = whole(plain_words(typed));
  if (!count) return unclear(need, typed, "write a number; 0 if there are none");
  return json{{"count", *count}};
}

Fault count_fault(const GateView&, const Need&, const json& evidence) {
  if (evidence.at("count").get<std::int64_t>() >= 0) return std::nullopt;
  return "the count is missing";
}

/// As many as the site has.
Fault all_counted_fault(const GateView&, const Need& need, const json& evidence) {
  const auto count = evidence.at("count").get<std::int64_t>();
  if (whole(need.value) == count) return std::nullopt;
  return fmt::format("{} of {} entrances", count, need.value);
}

Result<json> read_standby(const GateView&, const Need& need, const std::string& typed) {
  const auto names = parts_of(typed, false);
  if (names.size() != 1) return unclear(need, typed, "write the handle of the person outside");
  return json{{"person", names[0]}};
}

Fault standby_fault(const GateView& view, const Need&, const json& evidence) {
  const std::string person = evidence.at("person");
  if (person == view.technician()) return "whoever is inside cannot stand by outside";
  if (!is_active(view.documents, person))
    return fmt::format("nobody in the active crew is called \"{}\"", person);
  return std::nullopt;
}

Result<json> read_airflow(const GateView&, const Need& need, const std::string& typed) {
  const auto flow = read_air_flow(typed, need.id, {"cfm"});
  if (!flow) return tl::make_unexpected(flow.error());
  return json{{"cfm", flow->floor_in(unit::cubic_foot_per_minute)}, {"typed", typed}};
}

Fault airflow_fault(const GateView&, const Need& need, const json& evidence) {
  const auto least = whole(need.value);
  const auto cfm = evidence.at("cfm").get<std::int64_t>();
  if (least && cfm >= *least) return std::nullopt;
  return fmt::format("{} cfm is less than {}", cfm, need.value);
}

constexpr ItemForm site_rows[] = {
    {"animals-out", "How many animals are out? 0 if there are none", read_count, count_fault},
    {"everyone-out", "How many people left? 0 if nobody was there", read_count, count_fault},
    {"entrances-posted", "How many entrances are posted", read_count, all_counted_fault},
    {"signs-down", "How many signs are down", read_count, all_counted_fault},
    {"standby-person", "Handle of the person outside", read_standby, standby_fault},
    {"standby-rescue", "Handle of the person outside", read_standby, standby_fault},
    {"airflow-proved", "Measured airflow of the weakest system, e.g. '900 cfm'", read_airflow, airflow_fault},
};

}  // namespace

std::span<const ItemForm> site_forms() { return site_rows; }

}  // namespace fogwright
