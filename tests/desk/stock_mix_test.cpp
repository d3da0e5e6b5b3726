// SPDX-License-Identifier: Apache-2.0
#include "shop.hpp"

using namespace desk_test;

namespace {

using Rules = std::vector<std::string>;

constexpr std::int64_t gallon = 3'785'411;  // microlitres, rounded down

Shop with_parts() {
  Shop shop = Shop::open();
  shop.receive("a", "brackwater-20", litre, "2026-12-31", "heron", 6'000, "Part A concentrate");
  shop.receive("b", "brackwater-20", litre, "2026-12-31", "heron", 3'000, "Part B activator (citric acid)");
  shop.by("rowan");
  return shop;
}

MixRequest gallon_mix(std::vector<MixPart> parts = {{"a", {}}, {"b", {}}}) {
  MixRequest request;
  request.batch = "mix";
  request.product = "brackwater-20";
  request.made_ul = gallon;
  request.parts = std::move(parts);
  request.place = "heron";
  request.respirator_worn = true;
  return request;
}

}  // namespace

TEST_CASE("a batch takes its parts by the label's table and lives as long as the label says", "[stock][mix]") {
  Shop shop = with_parts();
  shop.done(mix_batch(shop.context(), gallon_mix()));
  // 1.5 fl oz is 44.36 mL; measured out in tenths of a millilitre, rounded down (never stronger than the
  // label).
  CHECK(shop.remaining("a") == litre - 44'300);
  CHECK(shop.remaining("b") == litre - 44'300);
  CHECK(shop.remaining("mix") == gallon);
  const auto batch = shop.document("batch", "mix");
  CHECK(batch.at("usable_until_ms") == shop.now() + 24 * hour_ms);
  CHECK(batch.at("lot") == "lot of a, lot of b");
  CHECK(batch.at("mixed_by") == "rowan");
  CHECK(batch.at("cost_cents") == 266 + 133);  // 6000 and 3000 cents a litre, each rounded up
  CHECK(shop.departures().empty());
}

TEST_CASE("a batch without an id is numbered", "[stock][mix]") {
  Shop shop = with_parts();
  MixRequest request = gallon_mix();
  request.batch.clear();
  shop.done(mix_batch(shop.context(), request));
  CHECK(shop.remaining("B1") == gallon);
}

TEST_CASE("mixing without the respirator that the label asks for is grave", "[stock][mix]") {
  Shop shop = with_parts();
  MixRequest request = gallon_mix();
  request.respirator_worn = false;
  shop.done(mix_batch(shop.context(), request));
  CHECK(shop.departures() == Rules{"mixed-without-respirator"});
  CHECK(shop.document("batch", "mix").at("respirator_worn") == false);
}

TEST_CASE("a product that asks for none is mixed without one", "[stock][mix]") {
  Shop shop = Shop::open();
  shop.receive("p", "palelight-hp", 4 * litre, "2026-12-31");
  shop.by("rowan");
  MixRequest request = gallon_mix({{"p", {}}});
  request.product = "palelight-hp";
  request.respirator_worn = false;
  shop.done(mix_batch(shop.context(), request));
  CHECK(shop.departures().empty());
  CHECK(shop.document("batch", "mix").at("usable_until_ms") == shop.now() + 7 * day_ms);
}

TEST_CASE("a mix that differs from the table is recorded and raised", "[stock][mix]") {
  Shop shop = with_parts();
  shop.done(mix_batch(shop.context(), gallon_mix({{"a", 45'000}, {"b", {}}})));  // 1.6 % more
  CHECK(shop.departures().empty());
  MixRequest strong = gallon_mix({{"a", 60'000}, {"b", {}}});
  strong.batch = "strong";
  shop.done(mix_batch(shop.context(), strong));
  CHECK(shop.departures() == Rules{"mixed-off-label"});
}

TEST_CASE("a part can come from two containers", "[stock][mix]") {
  Shop shop = with_parts();
  shop.by("ash");
  shop.receive("a2", "brackwater-20", litre, "2026-12-31", "heron", {}, "Part A concentrate");
  shop.by("rowan");
  shop.done(mix_batch(shop.context(), gallon_mix({{"a", 20'000}, {"a2", 24'300}, {"b", {}}})));
  CHECK(shop.departures().empty());
  CHECK_FALSE(shop.document("batch", "mix").contains("cost_cents"));  // a2 has no price
}

TEST_CASE("what cannot be a batch of this label is refused", "[stock][mix]") {
  Shop shop = with_parts();
  shop.by("ash");
  shop.receive("f", "fenmist-rtu", litre, "2026-12-31");
  CHECK(Shop::refused(mix_batch(shop.context(), gallon_mix())).code ==
        ErrorCode::not_permitted);  // no technician
  shop.by("rowan");
  CHECK(Shop::refused(mix_batch(shop.context(), gallon_mix({{"a", {}}}))).code == ErrorCode::missing_value);
  CHECK(Shop::refused(mix_batch(shop.context(), gallon_mix({{"a", {}}, {"f", {}}}))).code ==
        ErrorCode::incompatible_chemistry);
  CHECK(Shop::refused(mix_batch(shop.context(), gallon_mix({{"a", {}}, {"no", {}}}))).code ==
        ErrorCode::not_found);
  MixRequest ready = gallon_mix({{"f", {}}});
  ready.product = "fenmist-rtu";
  CHECK(Shop::refused(mix_batch(shop.context(), ready)).code == ErrorCode::label_forbids);
  MixRequest table = gallon_mix();
  table.table = "surface strength";
  CHECK(Shop::refused(mix_batch(shop.context(), table)).code == ErrorCode::not_found);
  shop.done(mix_batch(shop.context(), gallon_mix()));
  CHECK(Shop::refused(mix_batch(shop.context(), gallon_mix())).code == ErrorCode::already_exists);
  MixRequest of_batch = gallon_mix({{"mix", {}}, {"b", {}}});
  of_batch.batch = "again";
  CHECK(Shop::refused(mix_batch(shop.context(), of_batch)).code == ErrorCode::wrong_state);
}

TEST_CASE("parts go in their turn too", "[stock][mix]") {
  Shop shop = with_parts();
  shop.by("ash");
  shop.receive("a2", "brackwater-20", litre, "2026-06-30", "heron", {}, "Part A concentrate");
  shop.by("rowan");
  CHECK(Shop::refused(mix_batch(shop.context(), gallon_mix())).code == ErrorCode::missing_value);
  MixRequest request = gallon_mix();
  request.reason = "a2 leaks";
  shop.done(mix_batch(shop.context(), request));
  CHECK(shop.departures() == Rules{"out-of-turn"});
}

TEST_CASE("a mix past its life is raised when it is used", "[stock][mix]") {
  Shop shop = with_parts();
  shop.done(mix_batch(shop.context(), gallon_mix()));
  shop.wait(24 * hour_ms - 1);
  shop.draw("mix", litre, "J1");
  CHECK(shop.departures().empty());
  shop.wait(1);
  shop.draw("mix", litre, "J2");
  CHECK(shop.departures() == Rules{"batch-over-age"});
}

TEST_CASE("a job pays its share of a batch, and its demand falls on the parts", "[stock][mix]") {
  Shop shop = with_parts();
  shop.done(mix_batch(shop.context(), gallon_mix()));
  shop.draw("mix", gallon, "J1");
  CHECK(job_cost(shop.book(), "J1").cents == 399);
  CHECK(typical_job_ul(shop.book(), "brackwater-20/Part A concentrate") == 44'300);
  CHECK(shop.document("use", "brackwater-20/Part A concentrate@2026-03-02").at("ul") == 44'300);
  shop.done(return_to(shop.context(), "mix", gallon, "J1"));
  CHECK(job_cost(shop.book(), "J1").cents == 0);
  // The batch is whole again; the containers are not.
  CHECK(shop.document("use", "brackwater-20/Part A concentrate@2026-03-02").at("ul") == 44'300);
}
