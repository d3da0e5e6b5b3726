// SPDX-License-Identifier: Apache-2.0
#include "shop.hpp"

using namespace desk_test;

namespace {

const StockLine& line_of(const std::vector<StockLine>& lines, const std::string& item) {
  for (const StockLine& line : lines)
    if (line.item == item) return line;
  FAIL("no line of " << item);
  return lines.front();
}

/// Ten days of a litre a day from a container of 20 L.
Shop after_ten_days() {
  Shop shop = Shop::open();
  shop.receive("c", "fenmist-rtu", 20 * litre, "2027-12-31", "heron", 20'000);
  for (int day = 0; day < 10; ++day) {
    shop.draw("c", litre, "J" + std::to_string(day));
    shop.wait(day_ms);
  }
  return shop;
}

}  // namespace

TEST_CASE("use is reckoned over full days since the first receipt", "[stock][views]") {
  Shop shop = after_ten_days();
  CHECK(use_by_day(shop.book(), "fenmist-rtu", shop.now()) == std::vector<std::int64_t>(10, litre));
  shop.wait(2 * day_ms);
  const auto use = use_by_day(shop.book(), "fenmist-rtu", shop.now());
  CHECK(use.size() == 12);
  CHECK(use.back() == 0);
  shop.wait(200 * day_ms);
  CHECK(use_by_day(shop.book(), "fenmist-rtu", shop.now()).size() == demand_days);
}

TEST_CASE("a line tells jobs left, days of cover and what to order", "[stock][views]") {
  Shop shop = after_ten_days();
  shop.done(set_reorder_rule(shop.context(), "fenmist-rtu", {12, 0, 1.645}, 4 * litre));
  const auto list = stock_list(shop.book(), {}, shop.now());
  const StockLine& line = line_of(list, "fenmist-rtu");
  CHECK(line.name == "Fenmist RTU");
  CHECK(line.containers.usable_ul == 10 * litre);
  CHECK(line.jobs_left == 10);
  CHECK(line.days_of_cover == 10);
  CHECK(line.reorder_point_ul == 12 * litre);  // even demand: no safety stock
  CHECK(line.order_ul == 4 * litre);           // one unit lifts 10 L above 12 L
}

TEST_CASE("cover and orders count only what is in date", "[stock][views]") {
  Shop shop = after_ten_days();
  shop.receive("old", "fenmist-rtu", 4 * litre, "2026-03-13");
  const auto before = stock_list(shop.book(), {}, shop.now());
  CHECK(line_of(before, "fenmist-rtu").expiring == std::vector<std::string>{"old"});
  CHECK(line_of(before, "fenmist-rtu").jobs_left == 14);
  shop.wait(2 * day_ms);
  const auto after = stock_list(shop.book(), {}, shop.now());
  CHECK(line_of(after, "fenmist-rtu").containers.total_ul == 14 * litre);
  CHECK(line_of(after, "fenmist-rtu").containers.usable_ul == 10 * litre);
}

TEST_CASE("what has run out still has a line, in the list of all places", "[stock][views]") {
  Shop shop = Shop::open();
  shop.receive("c", "fenmist-rtu", litre, "2027-12-31");
  shop.draw("c", litre);
  CHECK(line_of(stock_list(shop.book(), {}, shop.now()), "fenmist-rtu").containers.total_ul == 0);
  CHECK(stock_list(shop.book(), "heron", shop.now()).empty());
}

TEST_CASE("less than a week of record is no demand", "[stock][views]") {
  Shop shop = Shop::open();
  shop.receive("c", "fenmist-rtu", litre, "2027-12-31");
  shop.wait(6 * day_ms);
  CHECK_FALSE(line_of(stock_list(shop.book(), {}, shop.now()), "fenmist-rtu").days_of_cover);
}

TEST_CASE("drawing a volume in turn takes from as many containers as it needs", "[stock][views]") {
  Shop shop = Shop::open();
  shop.receive("late", "fenmist-rtu", litre, "2027-06-30");
  shop.receive("early", "fenmist-rtu", litre, "2026-09-30");
  shop.done(draw_in_turn(shop.context(), "fenmist-rtu", "heron", 1'500'000, "J1"));
  CHECK(shop.remaining("early") == 0);
  CHECK(shop.remaining("late") == 500'000);
  CHECK(Shop::refused(draw_in_turn(shop.context(), "fenmist-rtu", "heron", litre, "J1")).code ==
        ErrorCode::stock_short);
  CHECK(shop.departures().empty());
}

TEST_CASE("the cost of a job is that of its lots, less what came back", "[stock][views]") {
  Shop shop = Shop::open();
  shop.receive("c", "fenmist-rtu", 4 * litre, "2027-12-31", "heron", 8'000);
  shop.receive("gift", "fenmist-rtu", litre, "2028-12-31");
  shop.draw("c", litre, "J1");
  shop.done(return_to(shop.context(), "c", 250'000, "J1"));
  JobCost cost = job_cost(shop.book(), "J1");
  CHECK(cost.cents == 1'500);
  CHECK(cost.complete);
  shop.draw("gift", litre, "J1", "c is locked away");
  cost = job_cost(shop.book(), "J1");
  CHECK(cost.cents == 1'500);
  CHECK_FALSE(cost.complete);
  CHECK(cost.lines.size() == 3);
  CHECK(job_cost(shop.book(), "J2").lines.empty());
}

// 49 CFR 173.6(a)(1)(ii): 30 kg or 30 L a package in packing groups II and III; (d): 200 kg a vehicle.
TEST_CASE("a van is checked with the class and packing group of its labels", "[stock][views]") {
  Shop shop = Shop::open();
  shop.receive("a", "brackwater-20", 20 * litre, "2026-12-31", "heron", {}, "Part A concentrate");
  shop.receive("f", "fenmist-rtu", 60 * litre, "2026-12-31");  // not regulated
  VanLoad van = van_load(shop.book(), "heron");
  CHECK(van.findings.empty());
  REQUIRE(van.load.size() == 2);
  CHECK(van.load[0].gross_mg == 25'740'000);  // 20 L x 1.17 g/mL x 1.1
  shop.receive("big", "brackwater-20", 31 * litre, "2026-12-31", "heron", {}, "Part A concentrate");
  van = van_load(shop.book(), "heron");
  CHECK(van.findings.size() == 2);  // its mass and its capacity
  CHECK(van.findings[0].package == "big");
  CHECK(van_load(shop.book(), "plover").load.empty());
}
