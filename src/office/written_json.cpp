// SPDX-License-Identifier: Apache-2.0
#include "office/written_json.hpp"

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

json departures_json(const Documents& now, const std::vector<Receipt>& receipts) {
  json list = json::array();
  for (const Receipt& receipt : receipts) add_departures(now, receipt.seq, list);
  return list;
}

}  // namespace fogwright
