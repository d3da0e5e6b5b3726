// SPDX-License-Identifier: Apache-2.0
/// Labels of containers, the inventory, stock over time.
#include <fmt/format.h>
#include <algorithm>
#include <map>

#include "desk/vessels.hpp"
#include "fogwright/desk/views.hpp"
#include "press/parts.hpp"

namespace fogwright::press {

using nlohmann::json;
using paper::Word;

namespace {

constexpr int curve_days = 90;

/// The last moment of use: a time for what lives less than two days more, else the last day.
std::string until_words(const Source& source, std::int64_t until_ms, std::int64_t since_ms) {
  if (until_ms - since_ms < 2 * day_ms) return time_words(source.clock(source.zone, until_ms));
  return day_of(until_ms - 1);
}

/// "Brackwater 20, Part A concentrate".
std::string item_words(const std::string& item, const std::string& name) {
  const auto slash = item.find('/');
  return slash == std::string::npos ? name : name + ", " + item.substr(slash + 1);
}

std::string product_name(const Documents& now, const std::string& product) {
  const auto known = now.get("product", product);
  return known ? known->at("name").get<std::string>() : product;
}

Result<Vessel> vessel_named(const Documents& now, const std::string& id) {
  auto vessel = vessel_in(now, id);
  if (vessel) return std::move(*vessel);
  return fail(ErrorCode::not_found, fmt::format("no container or batch is called \"{}\"", id), {},
              "fogwright stock list shows what there is");
}

Result<paper::ProductFacts> label_facts_of(const Source& source, const Vessel& vessel) {
  const auto text = source.now.get("label", vessel.text("label_digest"));
  if (!text)
    return fail(ErrorCode::not_found,
                fmt::format("the book does not hold the text of the label of {}", vessel.id), {},
                "adopt the label: fogwright product adopt FILE");
  const auto label = read_label(text->at("text").get<std::string>(), vessel.id);
  if (!label) return tl::make_unexpected(label.error().front());
  return product_facts(*label, source.language);
}

std::string day_in_place(const Source& source, const json& body, const char* member) {
  if (!body.contains(member)) return {};
  return time_words(source.clock(source.zone, body.at(member)), false).substr(0, 10);
}

paper::OrderLine order_line(const Source& source, const StockLine& line) {
  paper::OrderLine order;
  order.item = item_words(line.item, line.name);
  order.on_hand = recorded_volume(line.containers.usable_ul, source.units, Rounding::down);
  if (line.days_of_cover) order.cover = word(source.language, Word::days, *line.days_of_cover);
  if (line.reorder_point_ul)
    order.reorder_point = recorded_volume(*line.reorder_point_ul, source.units, Rounding::up);
  order.order = line.order_ul > 0 ? recorded_volume(line.order_ul, source.units, Rounding::up)
                                  : word(source.language, Word::nothing);
  return order;
}

paper::InventoryLine inventory_line(const Source& source, const VesselView& view) {
  const std::string product = view.item.substr(0, view.item.find('/'));
  paper::InventoryLine line;
  line.item = item_words(view.item, product_name(source.now, product));
  line.id = view.id;
  line.lot = view.lot;
  line.place = view.place;
  if (view.opened_ms) line.opened = time_words(source.clock(source.zone, *view.opened_ms), false).substr(0, 10);
  line.expires = until_words(source, view.usable_until_ms, source.moment.ms);
  line.left = recorded_volume(view.remaining_ul, source.units, Rounding::down);
  line.usable = view.usable;
  return line;
}

/// Changes of what containers of an item hold, by UTC day.
std::map<std::string, std::int64_t> changes_by_day(const Documents& now, const std::string& item) {
  std::map<std::string, std::int64_t> changes;
  now.each("container", false, [&](const std::string& id, const json& body) {
    if (item_of(body) != item) return;
    if (const auto log = now.get("movements", id))
      for (const json& row : log->at("rows"))
        changes[day_of(row.at("at_ms"))] += row.at("ul").get<std::int64_t>();
  });
  return changes;
}

double in_unit(std::int64_t ul, UnitSystem units) {
  const LiquidVolume volume(static_cast<double>(ul), unit::microlitre);
  return volume.value_in(units == UnitSystem::metric ? unit::litre : unit::us_gallon);
}

}  // namespace

std::string container_code(const std::string& id, bool batch) {
  return fmt::format("fogwright:{}:{}", batch ? "batch" : "container", id);
}

Result<paper::ContainerLabel> container_label(const Source& source, const std::string& id) {
  const auto vessel = vessel_named(source.now, id);
  if (!vessel) return tl::make_unexpected(vessel.error());
  auto product = label_facts_of(source, *vessel);
  if (!product) return tl::make_unexpected(product.error());
  const std::string part = vessel->text("part");
  paper::ContainerLabel label;
  label.id = id;
  label.item = part.empty() ? product->name : product->name + ", " + part;
  label.lot = lot_of(source.now, *vessel);
  label.size = recorded_volume(vessel->capacity_ul(), source.units);
  label.received = day_in_place(source, vessel->body, vessel->is_batch() ? "mixed_ms" : "received_ms");
  label.opened = day_in_place(source, vessel->body, "opened_ms");
  label.expires = until_words(source, vessel_usable_until(source.now, *vessel), source.moment.ms);
  label.place = vessel->text("place");
  label.product = std::move(*product);
  label.qr = container_code(id, vessel->is_batch());
  return label;
}

Result<std::vector<paper::ContainerLabel>> container_labels(const Source& source, const std::string& place) {
  if (!source.now.get("place", place))
    return fail(ErrorCode::not_found, fmt::format("there is no place \"{}\"", place), "--place",
                "fogwright place list shows the places");
  std::vector<paper::ContainerLabel> labels;
  for (const VesselView& view : vessels_on_hand(source.now, {}, place, source.moment.ms)) {
    auto label = container_label(source, view.id);
    if (!label) return tl::make_unexpected(label.error());
    labels.push_back(std::move(*label));
  }
  if (labels.empty())
    return fail(ErrorCode::not_found, fmt::format("nothing is at {}", place), "--place",
                "fogwright stock list shows what is where");
  return labels;
}

paper::InventoryReport inventory(const Source& source, const std::string& place) {
  const std::int64_t at = source.moment.ms;
  paper::InventoryReport report;
  report.as_of = time_words(source.clock(source.zone, at));
  if (!place.empty()) report.as_of += ", " + place;
  for (const StockLine& line : stock_list(source.now, place, at)) {
    // What was only mixed has nothing to order.
    if (line.containers.vessels == 0 && line.batches.vessels > 0) continue;
    report.orders.push_back(order_line(source, line));
    if (place.empty())
      if (auto curve = stock_curve(source, line.item, curve_days)) report.curves.push_back(std::move(*curve));
  }
  for (const VesselView& view : vessels_on_hand(source.now, {}, place, at))
    report.vessels.push_back(inventory_line(source, view));
  return report;
}

Result<paper::StockCurve> stock_curve(const Source& source, const std::string& item, int days) {
  const auto known = source.now.get("item-use", item);
  if (!known)
    return fail(ErrorCode::not_found, fmt::format("nothing of an item \"{}\" was ever received", item), {},
                "fogwright stock list shows the items");
  const std::string product = item.substr(0, item.find('/'));
  paper::StockCurve curve;
  curve.item = item_words(item, product_name(source.now, product));
  curve.unit = source.units == UnitSystem::metric ? "L" : "gal";
  const auto changes = changes_by_day(source.now, item);
  auto change = changes.begin();
  std::int64_t held = 0;
  for (int back = days; back >= 0; --back) {
    const std::string day = day_of(source.moment.ms - back * day_ms);
    for (; change != changes.end() && change->first <= day; ++change) held += change->second;
    if (day >= known->at("since").get<std::string>()) curve.days.emplace_back(day, in_unit(held, source.units));
  }
  for (const StockLine& line : stock_list(source.now, {}, source.moment.ms))
    if (line.item == item && line.reorder_point_ul)
      curve.reorder_point = in_unit(*line.reorder_point_ul, source.units);
  return curve;
}

}  // namespace fogwright::press
