// SPDX-License-Identifier: Apache-2.0
#include <rapidcheck.h>

#include "shop.hpp"

using namespace desk_test;

namespace {

using nlohmann::json;

constexpr const char* vessels[] = {"one", "two"};

/// Some step of a shop's life, in the words of the desk or of a careless program.
void any_step(Shop& shop) {
  const std::string id = vessels[*rc::gen::inRange(0, 2)];
  const auto ul = *rc::gen::inRange<std::int64_t>(1, 3 * litre);
  const auto desk = [&](const Result<Drafts>& drafts) {
    if (drafts) shop.done(drafts);  // a refusal writes nothing
  };
  switch (*rc::gen::inRange(0, 8)) {
    case 0:
    case 1:
      return desk(draw_from(shop.context(), {id, ul, "J1", "any"}));
    case 2:
      return desk(return_to(shop.context(), id, ul, "J1"));
    case 3:
      return desk(count_vessel(shop.context(), id, ul));
    case 4:
      return desk(record_spill(shop.context(), id, ul, "wiped up"));
    case 5:
      return desk(dispose(shop.context(), id, ul, "poured away"));
    case 6:
      return shop.write("drawn", {{"from", id}, {"ul", ul - litre}});
    default:
      return shop.wait(ul);
  }
}

std::int64_t sum_of_movements(const Shop& shop, const std::string& id) {
  std::int64_t sum = 0;
  const json log = shop.document("movements", id);
  for (const json& row : log.at("rows")) sum += row.at("ul").get<std::int64_t>();
  return sum;
}

/// Every document of the kinds that stock keeps.
std::string all_documents(const MapDocuments& documents) {
  std::string text;
  for (const char* kind : {"container", "batch", "movements", "use", "item-use", "job-draws", "departure",
                           "numbering", "place", "product", "person", "label-facts", "clock"})
    documents.each(kind, false, [&](const std::string& key, const json& body) {
      text += std::string(kind) + " " + key + " " + body.dump() + "\n";
    });
  return text;
}

Shop with_vessels() {
  Shop shop = Shop::open();
  for (const char* id : vessels) shop.receive(id, "fenmist-rtu", 2 * litre, "2027-12-31", "heron", 5'000);
  return shop;
}

}  // namespace

TEST_CASE("nothing ever holds less than nothing, and its movements add up to what it holds",
          "[stock][property]") {
  const Shop start = with_vessels();
  CHECK(rc::check("movements add up", [&] {
    Shop shop = start;
    const int steps = *rc::gen::inRange(1, 40);
    for (int i = 0; i < steps; ++i) {
      any_step(shop);
      for (const char* id : vessels) {
        RC_ASSERT(shop.remaining(id) >= 0);
        RC_ASSERT(sum_of_movements(shop, id) == shop.remaining(id));
      }
    }
  }));
}

TEST_CASE("folding the entries again gives the same documents", "[stock][property]") {
  const Shop start = with_vessels();
  CHECK(rc::check("replay", [&] {
    Shop shop = start;
    const int steps = *rc::gen::inRange(1, 40);
    for (int i = 0; i < steps; ++i) any_step(shop);
    MapDocuments again;
    for (const Entry& entry : shop.entries()) fold(entry, again);
    RC_ASSERT(all_documents(again) == all_documents(shop.book()));
  }));
}
