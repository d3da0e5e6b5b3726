// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/views.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "desk/stock_turn.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

std::string item_of_vessel(const Vessel& vessel) {
  return vessel.is_batch() ? vessel.text("product") : item_of(vessel.body);
}

VesselView view_of(const Documents& documents, const Vessel& vessel, std::int64_t at_ms) {
  VesselView view;
  view.id = vessel.id;
  view.item = item_of_vessel(vessel);
  view.lot = lot_of(documents, vessel);
  view.earlier_lots = vessel.body.value("earlier_lots", std::vector<std::string>());
  view.place = vessel.text("place");
  view.batch = vessel.is_batch();
  view.capacity_ul = vessel.capacity_ul();
  view.remaining_ul = vessel.remaining_ul();
  view.disposed = vessel.disposed();
  if (vessel.body.contains("opened_ms")) view.opened_ms = vessel.body["opened_ms"].get<std::int64_t>();
  view.usable_until_ms = vessel_usable_until(documents, vessel);
  view.usable = !view.disposed && at_ms < view.usable_until_ms;
  return view;
}

void add(OnHand& sum, const VesselView& view) {
  sum.total_ul += view.remaining_ul;
  if (view.usable) sum.usable_ul += view.remaining_ul;
  ++sum.vessels;
}

std::string product_of(const std::string& item) { return item.substr(0, item.find('/')); }

/// Whole units that lift the stock above the reorder point; nothing while it lies above.
std::int64_t to_order(std::int64_t usable_ul, std::int64_t point_ul, std::int64_t unit_ul) {
  if (usable_ul > point_ul || unit_ul <= 0) return 0;
  return ((point_ul - usable_ul) / unit_ul + 1) * unit_ul;
}

void forecast(const Documents& documents, StockLine& line, bool all_places, std::int64_t at_ms) {
  const std::int64_t usable = line.containers.usable_ul;
  if (const auto typical = typical_job_ul(documents, line.item)) line.jobs_left = jobs_left(usable, *typical);
  const auto use = use_by_day(documents, line.item, at_ms);
  const auto demand = daily_demand(use);
  if (!demand) return;
  line.days_of_cover = days_of_cover(usable, *demand);
  const auto rule = documents.get("reorder", line.product);
  if (!rule || !all_places) return;
  line.reorder_point_ul =
      reorder_point_ul(*demand, {static_cast<double>(rule->at("lead_time_days").get<std::int64_t>()),
                                 static_cast<double>(rule->at("lead_time_sd_days").get<std::int64_t>()),
                                 static_cast<double>(rule->at("service_z_milli").get<std::int64_t>()) / 1'000});
  line.order_ul = to_order(usable, *line.reorder_point_ul, rule->at("unit_ul"));
}

/// A line for every item that was ever received, so that what has run out is seen too.
std::map<std::string, StockLine> empty_lines(const Documents& documents) {
  std::map<std::string, StockLine> lines;
  documents.each("item-use", false, [&](const std::string& item, const json&) {
    StockLine& line = lines[item];
    line.item = item;
    line.product = product_of(item);
    const auto product = documents.get("product", line.product);
    line.name = product ? product->at("name").get<std::string>() : line.product;
  });
  return lines;
}

}  // namespace

std::optional<VesselView> vessel_view(const Documents& documents, const std::string& id, std::int64_t at_ms) {
  const auto vessel = vessel_in(documents, id);
  if (!vessel) return std::nullopt;
  return view_of(documents, *vessel, at_ms);
}

std::vector<VesselView> vessels_on_hand(const Documents& documents, const std::string& item,
                                        const std::string& place, std::int64_t at_ms) {
  std::vector<VesselView> views;
  for (const char* kind : {"container", "batch"})
    documents.each(kind, true, [&](const std::string& id, const json& body) {
      const Vessel vessel{kind, id, body};
      if (!place.empty() && vessel.text("place") != place) return;
      if (!item.empty() && item_of_vessel(vessel) != item && vessel.text("product") != item) return;
      views.push_back(view_of(documents, vessel, at_ms));
    });
  std::sort(views.begin(), views.end(), [](const VesselView& a, const VesselView& b) {
    return std::tie(a.item, a.batch, a.usable_until_ms, a.id) <
           std::tie(b.item, b.batch, b.usable_until_ms, b.id);
  });
  return views;
}

OnHand on_hand(const Documents& documents, const std::string& item, const std::string& place,
               std::int64_t at_ms) {
  OnHand sum;
  for (const VesselView& view : vessels_on_hand(documents, item, place, at_ms))
    if (!view.batch && view.item == item) add(sum, view);
  return sum;
}

std::vector<std::int64_t> use_by_day(const Documents& documents, const std::string& item, std::int64_t at_ms) {
  const auto known = documents.get("item-use", item);
  if (!known) return {};
  const std::string since = known->at("since");
  std::vector<std::int64_t> days;
  for (int back = demand_days; back >= 1; --back) {
    const std::string day = day_of(at_ms - back * day_ms);
    if (day < since) continue;
    const auto use = documents.get("use", use_key(item, day));
    // More returned than drawn on a day (of what was drawn the day before) is no use that day.
    days.push_back(use ? std::max<std::int64_t>(0, use->at("ul").get<std::int64_t>()) : 0);
  }
  return days;
}

std::optional<std::int64_t> typical_job_ul(const Documents& documents, const std::string& item) {
  const auto known = documents.get("item-use", item);
  if (!known || known->at("jobs").empty()) return std::nullopt;
  std::int64_t sum = 0;
  for (const json& row : known->at("jobs")) sum += row.at("ul").get<std::int64_t>();
  const auto count = static_cast<std::int64_t>(known->at("jobs").size());
  return (std::max<std::int64_t>(0, sum) + count - 1) / count;
}

std::vector<StockLine> stock_list(const Documents& documents, const std::string& place, std::int64_t at_ms,
                                  int expiring_days) {
  auto lines = empty_lines(documents);
  for (const VesselView& view : vessels_on_hand(documents, {}, place, at_ms)) {
    StockLine& line = lines[view.item];
    if (line.item.empty()) line.item = line.product = line.name = view.item;  // a batch of a product in parts
    add(view.batch ? line.batches : line.containers, view);
    // A batch lives for days at most; naming each would hide the containers.
    if (!view.batch && view.usable_until_ms <= at_ms + expiring_days * day_ms) line.expiring.push_back(view.id);
  }
  std::vector<StockLine> list;
  for (auto& [item, line] : lines) {
    if (!place.empty() && line.containers.vessels + line.batches.vessels == 0) continue;
    forecast(documents, line, place.empty(), at_ms);
    list.push_back(std::move(line));
  }
  return list;
}

JobCost job_cost(const Documents& documents, const std::string& job) {
  JobCost cost;
  const auto draws = documents.get("job-draws", job);
  if (!draws) return cost;
  for (const json& draw : draws->at("draws")) {
    JobCost::Line line{draw.at("from"), draw.at("product"), lot_of_draw(documents, draw), draw.at("ul"),
                       std::nullopt};
    if (draw.contains("cost_cents")) line.cents = draw["cost_cents"].get<std::int64_t>();
    cost.cents += line.cents.value_or(0);
    cost.complete = cost.complete && line.cents;
    cost.lines.push_back(std::move(line));
  }
  return cost;
}

}  // namespace fogwright
