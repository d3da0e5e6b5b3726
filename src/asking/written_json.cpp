// SPDX-License-Identifier: Apache-2.0
#include "asking/written_json.hpp"

#include <fmt/format.h>

namespace fogwright {
namespace {

using nlohmann::json;

/// Their keys count from 0 for each entry.
void add_departures(const Documents& now, std::int64_t seq, json& list) {
  for (int number = 0;; ++number) {
    const auto departure = now.get("departure", fmt::format("{:012}-{}", seq, number));
    if (!departure) return;
    list.push_back(*departure);
  }
}

}  // namespace

json departures_json(const Documents& now, const std::vector<std::int64_t>& seqs) {
  json list = json::array();
  for (const std::int64_t seq : seqs) add_departures(now, seq, list);
  return list;
}

json written_json(const Documents& now, const std::vector<Entry>& entries, bool already_there) {
  json list = json::array();
  std::vector<std::int64_t> seqs;
  for (const Entry& entry : entries) {
    seqs.push_back(entry.seq);
    list.push_back(
        {{"seq", entry.seq}, {"id", uuid_text(entry.id)}, {"kind", entry.kind}, {"body", entry.body}});
  }
  return {{"entries", std::move(list)},
          {"departures", departures_json(now, seqs)},
          {"already_there", already_there}};
}

bool is_refusal(std::string_view kind) { return kind.ends_with("-refused"); }

}  // namespace fogwright
