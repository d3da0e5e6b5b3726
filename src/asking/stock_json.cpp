// SPDX-License-Identifier: Apache-2.0
#include "asking/stock_json.hpp"

namespace fogwright {

using nlohmann::json;

namespace {

template <class T>
json or_null(const std::optional<T>& value) {
  return value ? json(*value) : json(nullptr);
}

}  // namespace

json vessel_json(const VesselView& v) {
  json shown = {{"id", v.id},
                {"item", v.item},
                {"lot", v.lot},
                {"place", v.place},
                {"batch", v.batch},
                {"size_ul", v.capacity_ul},
                {"remaining_ul", v.remaining_ul},
                {"opened_ms", or_null(v.opened_ms)},
                {"usable_until_ms", v.usable_until_ms},
                {"usable", v.usable}};
  if (!v.earlier_lots.empty()) shown["earlier_lots"] = v.earlier_lots;
  return shown;
}

json stock_line_json(const StockLine& line) {
  return {{"item", line.item},
          {"name", line.name},
          {"on_hand_ul", line.containers.total_ul},
          {"usable_ul", line.containers.usable_ul},
          {"containers", line.containers.vessels},
          {"batches_usable_ul", line.batches.usable_ul},
          {"jobs_left", or_null(line.jobs_left)},
          {"days_of_cover", or_null(line.days_of_cover)},
          {"reorder_point_ul", or_null(line.reorder_point_ul)},
          {"order_ul", line.order_ul},
          {"expiring", line.expiring}};
}

json job_cost_json(const JobCost& cost) {
  json draws = json::array();
  for (const JobCost::Line& line : cost.lines)
    draws.push_back({{"from", line.from},
                     {"product", line.product},
                     {"lot", line.lot},
                     {"ul", line.ul},
                     {"cents", or_null(line.cents)}});
  return {{"cents", cost.cents}, {"complete", cost.complete}, {"draws", std::move(draws)}};
}

}  // namespace fogwright
