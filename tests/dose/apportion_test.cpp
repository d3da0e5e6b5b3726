// SPDX-License-Identifier: Apache-2.0
#include <rapidcheck.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <limits>
#include <numeric>

#include "dose/houses.hpp"
#include "table_file.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

using Numbers = std::vector<std::int64_t>;

constexpr std::int64_t largest = std::numeric_limits<std::int64_t>::max();

rc::Gen<Numbers> weights_of_returns() {
  return rc::gen::suchThat(
      rc::gen::container<Numbers>(rc::gen::inRange<std::int64_t>(0, 10'000'000)),
      [](const Numbers& w) { return std::any_of(w.begin(), w.end(), [](auto x) { return x > 0; }); });
}

}  // namespace

TEST_CASE("published apportionments come out as printed", "[dose]") {
  const auto rows = table_rows("largest_remainder.txt", 4);
  REQUIRE(rows.size() == 9);
  for (const Row& row : rows) {
    INFO(row[0] << ", " << row[2] << " to share");
    CHECK(apportion(std::stoll(row[2]), numbers<std::int64_t>(row[1])).value() ==
          numbers<std::int64_t>(row[3]));
  }
}

TEST_CASE("ties resolve in the order given", "[dose]") {
  // Computed independently: rounding each share by itself would give 13, 10, 10.
  CHECK(apportion(32, Numbers{400, 300, 300}).value() == Numbers{13, 10, 9});
  CHECK(apportion(32, Numbers{300, 300, 400}).value() == Numbers{10, 9, 13});
  CHECK(apportion(5, Numbers{1, 1, 1}).value() == Numbers{2, 2, 1});
}

TEST_CASE("face area and airflow split a house differently", "[dose]") {
  // Computed independently.
  CHECK(apportion(128, Numbers{800, 250, 150}).value() == Numbers{85, 27, 16});
  CHECK(apportion(1000, Numbers{400, 280, 144}).value() == Numbers{485, 340, 175});
  CHECK(apportion(1000, Numbers{700, 400, 100}).value() == Numbers{584, 333, 83});
}

TEST_CASE("the largest totals and weights don't overflow", "[dose]") {
  CHECK(apportion(largest, Numbers{largest, largest}).value() == Numbers{largest / 2 + 1, largest / 2});
  CHECK(apportion(largest, Numbers{largest, 0, largest, largest}).value() ==
        Numbers{largest / 3 + 1, 0, largest / 3, largest / 3});
  const auto even = apportion(largest, Numbers(200, largest)).value();
  CHECK(std::accumulate(even.begin(), even.end(), std::int64_t{0}) == largest);
  CHECK(even.front() - even.back() == 1);
}

TEST_CASE("a weight of zero gets nothing, and fewer units than weights go to the heaviest", "[dose]") {
  CHECK(apportion(7, Numbers{0, 3, 0, 3, 0}).value() == Numbers{0, 4, 0, 3, 0});
  CHECK(apportion(2, Numbers{1, 5, 2, 5, 3}).value() == Numbers{0, 1, 0, 1, 0});
  CHECK(apportion(0, Numbers{1, 2}).value() == Numbers{0, 0});
  CHECK(apportion(9, Numbers{4}).value() == Numbers{9});
}

TEST_CASE("what cannot be split is refused", "[dose]") {
  check_refused(apportion(-1, Numbers{1}), ErrorCode::out_of_range, "A total of -1 cannot be split.", "total",
                "Give a total of zero or more.");
  check_refused(apportion(5, Numbers{3, -2}), ErrorCode::out_of_range, "A weight of -2 is negative.",
                "weight 2", "Give weights of zero or more.");
  for (const Numbers& none : {Numbers{}, Numbers{0, 0}})
    check_refused(apportion(5, none), ErrorCode::out_of_range,
                  "There is no weight above zero to split a total over.", "weights",
                  "Give at least one weight above zero.");
}

TEST_CASE("shares sum to the total and differ from exact by less than one", "[dose][property]") {
  CHECK(rc::check([] {
    const auto weights = *weights_of_returns();
    const auto total = *rc::gen::inRange<std::int64_t>(0, 1'000'000);
    const auto shares = apportion(total, weights).value();
    const auto sum = std::accumulate(weights.begin(), weights.end(), std::int64_t{0});
    RC_ASSERT(std::accumulate(shares.begin(), shares.end(), std::int64_t{0}) == total);
    for (std::size_t i = 0; i < shares.size(); ++i)
      RC_ASSERT(std::abs(shares[i] * sum - total * weights[i]) < sum);
  }));
}

TEST_CASE("permuting the weights permutes the shares up to ties", "[dose][property]") {
  CHECK(rc::check([] {
    const auto weights = *weights_of_returns();
    const auto total = *rc::gen::inRange<std::int64_t>(0, 10'000);
    std::vector<std::size_t> order(weights.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto keys = *rc::gen::container<std::vector<int>>(weights.size(), rc::gen::arbitrary<int>());
    std::sort(order.begin(), order.end(),
              [&](auto a, auto b) { return keys[a] != keys[b] ? keys[a] < keys[b] : a < b; });
    Numbers permuted;
    for (std::size_t at : order) permuted.push_back(weights[at]);
    const auto shares = apportion(total, weights).value();
    const auto shares_of_permuted = apportion(total, permuted).value();

    // A tie is between equal remainders: only there may a share move, and by one.
    const auto sum = std::accumulate(weights.begin(), weights.end(), std::int64_t{0});
    std::vector<std::int64_t> remainders;
    for (auto w : weights) remainders.push_back(total * w % sum);
    for (std::size_t i = 0; i < order.size(); ++i) {
      const auto moved = std::abs(shares_of_permuted[i] - shares[order[i]]);
      const bool tied = std::count(remainders.begin(), remainders.end(), remainders[order[i]]) > 1;
      RC_ASSERT(moved <= (tied ? 1 : 0));
    }
  }));
}
