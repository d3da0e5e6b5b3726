// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <limits>

#include "stock/shelves.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

constexpr std::int64_t largest = std::numeric_limits<std::int64_t>::max();

Container priced(std::int64_t size_ul, std::int64_t cost_cents) {
  Container one = container("a");
  one.size_ul = size_ul;
  one.cost_cents = cost_cents;
  return one;
}

}  // namespace

TEST_CASE("a draw leaves the rest, and an over-draw leaves nothing and says by how much", "[stock]") {
  CHECK(draw(1000, 400).remaining_ul == 600);
  CHECK(draw(1000, 400).over_ul == 0);
  CHECK(draw(1000, 1000).remaining_ul == 0);
  CHECK(draw(1000, 1000).over_ul == 0);
  CHECK(draw(1000, 1001).remaining_ul == 0);
  CHECK(draw(1000, 1001).over_ul == 1);
  CHECK(draw(0, largest).over_ul == largest);
}

TEST_CASE("a draw goes never below zero and loses nothing", "[stock][property]") {
  CHECK(rc::check("draw", [] {
    const auto before = *rc::gen::inRange<std::int64_t>(0, 1'000'000'000);
    const auto ul = *rc::gen::inRange<std::int64_t>(0, 1'000'000'000);
    const Draw after = draw(before, ul);
    RC_ASSERT(after.remaining_ul >= 0);
    RC_ASSERT(after.over_ul >= 0);
    RC_ASSERT(after.remaining_ul + ul - after.over_ul == before);
    RC_ASSERT(after.over_ul == 0 || after.remaining_ul == 0);
  }));
}

TEST_CASE("cost is the share of the lot's price, rounded up to the cent", "[stock]") {
  // Computed independently: 8,999 cents for 3.785411784 L; 500 mL is 1188.64 cents.
  CHECK(cost_of(priced(3'785'411, 8999), 500'000) == 1189);
  CHECK(cost_of(priced(1000, 500), 1000) == 500);
  CHECK(cost_of(priced(1000, 500), 2) == 1);
  CHECK(cost_of(priced(1000, 500), 3) == 2);
  CHECK(cost_of(priced(1000, 500), 0) == 0);
  CHECK(cost_of(priced(1000, 0), 700) == 0);
}

TEST_CASE("no cost is told where price or size is not known", "[stock]") {
  CHECK_FALSE(cost_of(container("a"), 100).has_value());
  CHECK_FALSE(cost_of(priced(0, 500), 100).has_value());
}

TEST_CASE("the largest prices and volumes don't overflow", "[stock]") {
  CHECK(cost_of(priced(largest, largest), largest) == largest);
  CHECK(cost_of(priced(1, largest), 2) == largest);
}
