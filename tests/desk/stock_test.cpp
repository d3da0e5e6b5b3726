// SPDX-License-Identifier: Apache-2.0
#include "shop.hpp"

using namespace desk_test;

namespace {

using Rules = std::vector<std::string>;

Shop with_two() {
  Shop shop = Shop::open();
  shop.receive("late", "fenmist-rtu", 4 * litre, "2027-06-30");
  shop.receive("early", "fenmist-rtu", 4 * litre, "2026-09-30");
  return shop;
}

Shop with_one(std::int64_t ul = 4 * litre) {
  Shop shop = Shop::open();
  shop.receive("c", "fenmist-rtu", ul, "2026-09-30", "heron", 8'000);
  return shop;
}

}  // namespace

TEST_CASE("what arrives is on hand at its place, by its product's label", "[stock]") {
  Shop shop = with_one();
  CHECK(on_hand(shop.book(), "fenmist-rtu", "heron", shop.now()).usable_ul == 4 * litre);
  CHECK(on_hand(shop.book(), "fenmist-rtu", "plover", shop.now()).total_ul == 0);
  CHECK(shop.document("container", "c").at("label_digest") ==
        shop.document("product", "fenmist-rtu").at("current"));
}

TEST_CASE("containers without an id are numbered", "[stock]") {
  Shop shop = Shop::open();
  shop.receive("C2", "fenmist-rtu", litre, "2027-01-01");
  shop.receive("", "fenmist-rtu", litre, "2027-01-01");
  shop.receive("", "fenmist-rtu", litre, "2027-01-01");
  CHECK(shop.remaining("C3") == litre);
  CHECK(shop.remaining("C4") == litre);
}

TEST_CASE("a delivery of what the book doesn't know is refused", "[stock]") {
  Shop shop = with_one();
  const auto refused = [&](auto change) {
    Delivery d{"new", "fenmist-rtu", "", "L1", litre, "", "2027-01-01", "heron", {}, "", ""};
    change(d);
    return Shop::refused(receive(shop.context(), d)).code;
  };
  CHECK(refused([](Delivery& d) { d.product = "other"; }) == ErrorCode::not_found);
  CHECK(refused([](Delivery& d) { d.place = "moon"; }) == ErrorCode::not_found);
  CHECK(refused([](Delivery& d) { d.container = "c"; }) == ErrorCode::already_exists);
  CHECK(refused([](Delivery& d) { d.lot = ""; }) == ErrorCode::missing_value);
  CHECK(refused([](Delivery& d) { d.size_ul = 0; }) == ErrorCode::out_of_range);
  CHECK(refused([](Delivery& d) { d.expires = "2027-02-29"; }) == ErrorCode::not_understood);
  CHECK(refused([](Delivery& d) { d.part = "activator"; }) == ErrorCode::not_found);
  CHECK(refused([](Delivery& d) { d.product = "brackwater-20"; }) == ErrorCode::missing_value);
  CHECK(refused([](Delivery& d) { d.cost_cents = -1; }) == ErrorCode::out_of_range);
}

TEST_CASE("the container that expires first goes first; another needs a reason, which is raised", "[stock]") {
  Shop shop = with_two();
  const Error error = Shop::refused(draw_from(shop.context(), {"late", litre, "J1", {}}));
  CHECK(error.code == ErrorCode::missing_value);
  CHECK(error.message.find("early") != std::string::npos);
  shop.draw("early", litre);
  CHECK(shop.departures().empty());
  shop.draw("late", litre, "J1", "early is at the back of the van");
  CHECK(shop.departures() == Rules{"out-of-turn"});
}

TEST_CASE("a reason given for a container that is in its turn is no departure", "[stock]") {
  Shop shop = with_two();
  shop.draw("early", litre, "J1", "because");
  CHECK(shop.departures().empty());
}

TEST_CASE("the turn looks at one place and passes over what is empty or expired", "[stock]") {
  Shop shop = with_two();
  shop.done(move_vessel(shop.context(), "early", "shop"));
  shop.draw("late", litre);
  shop.done(move_vessel(shop.context(), "early", "heron"));
  shop.draw("early", 4 * litre);
  shop.draw("late", litre);
  CHECK(shop.departures().empty());
}

TEST_CASE("drawing opens a container, and its opened life runs from then", "[stock]") {
  Shop shop = with_one();
  shop.draw("c", litre);
  CHECK(shop.document("container", "c").at("opened_ms") == shop.now());
  CHECK(Shop::refused(open_container(shop.context(), "c")).code == ErrorCode::wrong_state);
}

TEST_CASE("an over-draw is recorded as what happened, raised, and leaves nothing", "[stock]") {
  Shop shop = with_one(litre);
  shop.draw("c", litre + 5, "J1");
  CHECK(shop.entries().back().body.at("over_ul") == 5);
  CHECK(shop.remaining("c") == 0);
  CHECK(shop.departures() == Rules{"over-draw"});
  CHECK(vessels_on_hand(shop.book(), {}, {}, shop.now()).empty());
}

TEST_CASE("product used after its last day is recorded and raised", "[stock]") {
  Shop shop = Shop::open();
  shop.receive("c", "fenmist-rtu", litre, "2026-03-03");
  shop.wait(33 * hour_ms);  // 3 March 2026, 23:00 UTC: its last hour
  shop.draw("c", 1);
  CHECK(shop.departures().empty());
  shop.wait(hour_ms);
  shop.draw("c", 1);
  CHECK(shop.departures() == Rules{"expired-used"});
}

TEST_CASE("the opened life of the label ends a container before its expiry", "[stock]") {
  Shop shop = Shop::open();
  shop.receive("a", "brackwater-20", litre, "2027-12-31", "heron", {}, "Part A concentrate");
  shop.done(open_container(shop.context(), "a"));
  shop.wait(90 * day_ms - 1);
  shop.draw("a", 1);
  CHECK(shop.departures().empty());
  shop.wait(1);
  shop.draw("a", 1);
  CHECK(shop.departures() == Rules{"expired-used"});
}

TEST_CASE("use by a retired label, or of what was disposed of, is raised", "[stock]") {
  Shop shop = with_one();
  shop.done(retire_label(shop.context(), "fenmist-rtu", {}, "withdrawn"));
  shop.draw("c", litre);
  shop.done(dispose(shop.context(), "c", {}, "taken back by the maker"));
  CHECK(shop.remaining("c") == 0);
  shop.draw("c", 1);
  CHECK(shop.departures() == Rules{"retired-label", "disposed-used", "retired-label", "over-draw"});
}

TEST_CASE("returns go back into the vessel, up to its size", "[stock]") {
  Shop shop = with_one(litre);
  shop.draw("c", 300'000, "J1");
  CHECK(Shop::refused(return_to(shop.context(), "c", 300'001, "J1")).code == ErrorCode::out_of_range);
  shop.done(return_to(shop.context(), "c", 100'000, "J1"));
  CHECK(shop.remaining("c") == 800'000);
  CHECK(Shop::refused(return_to(shop.context(), "no", 1, {})).code == ErrorCode::not_found);
  shop.write("returned", {{"to", "c"}, {"ul", litre}});
  CHECK(shop.departures() == Rules{"over-full"});
}

TEST_CASE("a count posts its variance; more than a twentieth of the vessel is raised", "[stock]") {
  Shop shop = with_one(litre);
  shop.done(count_vessel(shop.context(), "c", 950'000));
  CHECK(shop.entries().back().body.at("variance_ul") == -50'000);
  CHECK(shop.departures().empty());
  shop.done(count_vessel(shop.context(), "c", 899'999));
  CHECK(shop.departures() == Rules{"count-variance"});
  CHECK(shop.remaining("c") == 899'999);
  CHECK(Shop::refused(count_vessel(shop.context(), "c", litre + 1)).code == ErrorCode::out_of_range);
}

TEST_CASE("spills say what was done about them", "[stock]") {
  Shop shop = with_one(litre);
  CHECK(Shop::refused(record_spill(shop.context(), "c", 1'000, " ")).code == ErrorCode::missing_value);
  shop.done(record_spill(shop.context(), "c", 1'000, "flushed with water"));
  CHECK(shop.remaining("c") == 999'000);
}

TEST_CASE("disposal of a part leaves the rest; of all, ends the vessel", "[stock]") {
  Shop shop = with_one(litre);
  shop.done(dispose(shop.context(), "c", 400'000, "poured away diluted"));
  CHECK(shop.remaining("c") == 600'000);
  shop.done(dispose(shop.context(), "c", {}, "poured away diluted"));
  CHECK(Shop::refused(dispose(shop.context(), "c", {}, "again")).code == ErrorCode::wrong_state);
  CHECK(Shop::refused(move_vessel(shop.context(), "c", "shop")).code == ErrorCode::wrong_state);
}

TEST_CASE("moving needs a known place that is another", "[stock]") {
  Shop shop = with_one();
  CHECK(Shop::refused(move_vessel(shop.context(), "c", "moon")).code == ErrorCode::not_found);
  CHECK(Shop::refused(move_vessel(shop.context(), "c", "heron")).code == ErrorCode::wrong_state);
}

TEST_CASE("a place outside the range of a label kept there is raised, for each product", "[stock]") {
  Shop shop = with_one();
  shop.receive("a", "brackwater-20", litre, "2027-12-31", "heron", {}, "Part A concentrate");
  shop.done(read_storage(shop.context(), "heron", Temperature::fahrenheit(77), "77 F"));
  CHECK(shop.departures().empty());
  shop.done(read_storage(shop.context(), "heron", Temperature::fahrenheit(77.1), "77.1 F"));
  CHECK(shop.departures() == Rules{"storage-range"});
  shop.done(read_storage(shop.context(), "heron", Temperature::fahrenheit(39), "39 F"));
  CHECK(shop.departures() == Rules{"storage-range", "storage-range", "storage-range"});
  CHECK(shop.document("place", "heron").at("last_temperature_mk") == 277'039);
  shop.done(read_storage(shop.context(), "plover", Temperature::fahrenheit(0), "0 F"));
  CHECK(shop.departures().size() == 3);
}

TEST_CASE("what another program wrote amiss is raised and stops nothing", "[stock]") {
  Shop shop = with_one(litre);
  shop.write("drawn", {{"from", "nowhere"}, {"ul", 5}});
  shop.write("drawn", {{"from", "c"}});
  shop.write("drawn", {{"from", "c"}, {"ul", -5}});
  shop.write("storage-read", {{"place", "moon"}, {"temperature_mk", 1}, {"temperature_typed", ""}});
  CHECK(shop.departures() == Rules{"unknown-name", "unreadable-body", "unknown-name"});
  CHECK(shop.remaining("c") == litre);
  auto again = shop.entries()[8].body;
  for (const Entry& entry : shop.entries())
    if (entry.kind == "container-received") again = entry.body;
  shop.write("container-received", again);
  again["container"] = "d";
  again["label_digest"] = "0";
  shop.write("container-received", again);
  CHECK(shop.departures().size() == 5);
  CHECK(shop.departures()[3] == "name-taken");
  CHECK(shop.departures()[4] == "unknown-label");
}
