// SPDX-License-Identifier: Apache-2.0
#include "desk/vessels.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <chrono>
#include <set>

namespace fogwright {
namespace {

using nlohmann::json;

std::optional<ShelfTime> shelf_time(const json& facts, const char* member) {
  if (!facts.contains(member)) return std::nullopt;
  return ShelfTime(static_cast<double>(facts.at(member).get<std::int64_t>()), unit::millisecond);
}

}  // namespace

std::int64_t Vessel::remaining_ul() const { return body.at("remaining_ul").get<std::int64_t>(); }

std::int64_t Vessel::capacity_ul() const {
  return body.at(is_batch() ? "made_ul" : "size_ul").get<std::int64_t>();
}

std::optional<Vessel> vessel_in(const Documents& documents, const std::string& id) {
  for (const char* kind : vessel_kinds)
    if (auto body = documents.get(kind, id)) return Vessel{kind, id, std::move(*body)};
  return std::nullopt;
}

Container container_of(const json& body) {
  Container c;
  body.at("container").get_to(c.id);
  body.at("product").get_to(c.product);
  body.at("label_digest").get_to(c.label_digest);
  body.at("lot").get_to(c.lot);
  body.at("place").get_to(c.place);
  body.at("size_ul").get_to(c.size_ul);
  body.at("remaining_ul").get_to(c.remaining_ul);
  body.at("received_ms").get_to(c.received_ms);
  if (body.contains("opened_ms")) c.opened_ms = body.at("opened_ms").get<std::int64_t>();
  body.at("expires").get_to(c.expires);
  if (body.contains("cost_cents")) c.cost_cents = body.at("cost_cents").get<std::int64_t>();
  body.at("disposed").get_to(c.disposed);
  return c;
}

Batch batch_of(const json& body) {
  Batch b;
  body.at("batch").get_to(b.id);
  body.at("product").get_to(b.product);
  body.at("label_digest").get_to(b.label_digest);
  body.at("place").get_to(b.place);
  body.at("made_ul").get_to(b.made_ul);
  body.at("remaining_ul").get_to(b.remaining_ul);
  body.at("mixed_ms").get_to(b.mixed_ms);
  body.at("usable_until_ms").get_to(b.usable_until_ms);
  body.at("disposed").get_to(b.disposed);
  return b;
}

ShelfLife shelf_life_in(const Documents& documents, std::string_view digest) {
  const auto facts = documents.get("label-facts", digest);
  if (!facts) return {};
  return {shelf_time(*facts, "sealed_ms"), shelf_time(*facts, "opened_ms"), shelf_time(*facts, "mixed_ms")};
}

std::int64_t vessel_usable_until(const Documents& documents, const Vessel& vessel) {
  if (vessel.is_batch()) return vessel.body.at("usable_until_ms").get<std::int64_t>();
  return usable_until_ms(container_of(vessel.body), shelf_life_in(documents, vessel.text("label_digest")));
}

std::string_view off_storage_range(const nlohmann::json& label_facts, std::int64_t mk) {
  if (label_facts.contains("low_mk") && mk < label_facts["low_mk"].get<std::int64_t>()) return "colder";
  if (label_facts.contains("high_mk") && mk > label_facts["high_mk"].get<std::int64_t>()) return "hotter";
  return {};
}

std::string lot_of(const Documents& documents, const Vessel& vessel) {
  if (!vessel.is_batch()) return vessel.text("lot");
  std::set<std::string> lots;
  for (const json& part : vessel.body.at("parts")) {
    const auto container = documents.get("container", part.at("container").get<std::string>());
    if (!container) return vessel.text("lot");
    lots.insert(container->at("lot").get<std::string>());
  }
  return fmt::format("{}", fmt::join(lots, ", "));
}

std::string lot_of_draw(const Documents& documents, const json& draw) {
  const auto vessel = vessel_in(documents, draw.at("from"));
  return vessel ? lot_of(documents, *vessel) : draw.at("lot").get<std::string>();
}

std::vector<std::int64_t> first_movement(const Documents& documents, const std::string& vessel) {
  const auto movements = documents.get("movements", vessel);
  if (!movements || movements->at("rows").empty()) return {};
  return {movements->at("rows").front().at("seq").get<std::int64_t>()};
}

std::string item_of(std::string_view product, std::string_view part) {
  return part.empty() ? std::string(product) : fmt::format("{}/{}", product, part);
}

std::string item_of(const json& container) {
  return item_of(container.at("product").get<std::string>(), container.value("part", std::string()));
}

std::string day_of(std::int64_t ms) {
  using namespace std::chrono;
  const year_month_day day{floor<days>(sys_time<milliseconds>{milliseconds{ms}})};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                     static_cast<unsigned>(day.day()));
}

std::string use_key(std::string_view item, std::string_view day) { return fmt::format("{}@{}", item, day); }

std::string volume_words(std::int64_t ul, Rounding rounding) {
  return show(LiquidVolume(static_cast<double>(ul), unit::microlitre), UnitSystem::us_customary, rounding);
}

}  // namespace fogwright
