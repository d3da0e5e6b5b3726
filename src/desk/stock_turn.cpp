// SPDX-License-Identifier: Apache-2.0
#include "desk/stock_turn.hpp"

#include <fmt/format.h>

namespace fogwright {

using nlohmann::json;

Result<Vessel> find_vessel(const Documents& documents, const std::string& id, std::string_view where) {
  if (auto vessel = vessel_in(documents, id)) return *vessel;
  return fail(ErrorCode::not_found, fmt::format("no container or batch is called \"{}\"", id),
              std::string(where), "fogwright stock list shows what there is");
}

std::vector<Container> containers_at(const Documents& documents, const std::string& item,
                                     const std::string& place) {
  std::vector<Container> containers;
  documents.each("container", true, [&](const std::string&, const json& body) {
    if (body.at("place") == place && item_of(body) == item) containers.push_back(container_of(body));
  });
  return containers;
}

ShelfLife turn_life(const Documents& documents, const std::string& product) {
  const auto known = documents.get("product", product);
  return known ? shelf_life_in(documents, known->at("current").get<std::string>()) : ShelfLife{};
}

std::string whose_turn(const DeskContext& context, const Vessel& vessel) {
  if (vessel.is_batch()) return {};
  const ShelfLife life = turn_life(context.documents, vessel.text("product"));
  const auto containers = containers_at(context.documents, item_of(vessel.body), vessel.text("place"));
  const auto in_turn = first_expired_first_out(containers, life, context.now_ms);
  if (in_turn.empty() || in_turn.front()->id == vessel.id) return {};
  const Container mine = container_of(vessel.body);
  const bool as_good = usable_at(mine, life, context.now_ms) &&
                       usable_until_ms(mine, life) == usable_until_ms(*in_turn.front(), life);
  return as_good ? std::string() : in_turn.front()->id;
}

Result<void> check_turn(const DeskContext& context, const Vessel& vessel, const std::string& reason) {
  if (!reason.empty()) return {};
  const std::string turn = whose_turn(context, vessel);
  if (turn.empty()) return {};
  return fail(ErrorCode::missing_value,
              fmt::format("{} is not in its turn: {} in the same place expires first", vessel.id, turn),
              "--reason", fmt::format("take {}, or say why not, e.g. --reason '{} is frozen in'", turn, turn));
}

std::string next_id(const Documents& documents, const std::string& kind, std::int64_t ahead) {
  const auto count = documents.get("numbering", kind);
  std::int64_t number = (count ? count->at("last").get<std::int64_t>() : 0) + ahead;
  const char letter = kind == "batch" ? 'B' : 'C';
  std::string id;
  do id = fmt::format("{}{}", letter, ++number);
  while (vessel_in(documents, id));
  return id;
}

}  // namespace fogwright
