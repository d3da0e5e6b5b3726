// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <numeric>

#include "dose/houses.hpp"
#include "stock/shelves.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

constexpr std::int64_t march_30_ms = april_2026_ms - 2 * day_ms;

std::vector<std::string> ids(const std::vector<const Container*>& containers) {
  std::vector<std::string> names;
  for (const Container* one : containers) names.push_back(one->id);
  return names;
}

std::vector<std::string> ids(const std::vector<Take>& takes) {
  std::vector<std::string> names;
  for (const Take& take : takes) names.push_back(take.container);
  return names;
}

std::int64_t sum_of(const std::vector<Take>& takes) {
  return std::accumulate(takes.begin(), takes.end(), std::int64_t{0},
                         [](std::int64_t sum, const Take& take) { return sum + take.ul; });
}

std::int64_t usable_ul(const std::vector<Container>& shelf, const ShelfLife& life) {
  std::int64_t sum = 0;
  for (const Container& one : shelf)
    if (usable_at(one, life, march_30_ms)) sum += one.remaining_ul;
  return sum;
}

const Container& by_id(const std::vector<Container>& shelf, const std::string& id) {
  return *std::find_if(shelf.begin(), shelf.end(), [&](const Container& one) { return one.id == id; });
}

void give_each_its_own_id(std::vector<Container>& shelf) {
  for (std::size_t i = 0; i < shelf.size(); ++i) shelf[i].id = std::to_string(i);
}

}  // namespace

TEST_CASE("a container may be used to the last millisecond of its expiry day", "[stock]") {
  const Container one = container("a");
  CHECK(usable_until_ms(one, {}) == april_2026_ms);
  CHECK(usable_at(one, {}, april_2026_ms - 1));
  CHECK_FALSE(usable_at(one, {}, april_2026_ms));
}

TEST_CASE("opened life counts from the opening, to its last millisecond", "[stock]") {
  Container one = container("a");
  const ShelfLife life{.sealed = {}, .opened = days(5), .mixed = {}};
  CHECK(usable_until_ms(one, life) == april_2026_ms);  // sealed
  one.opened_ms = april_2026_ms - 8 * day_ms + 17;
  const std::int64_t end = april_2026_ms - 3 * day_ms + 17;
  CHECK(usable_until_ms(one, life) == end);
  CHECK(usable_at(one, life, end - 1));
  CHECK_FALSE(usable_at(one, life, end));
  CHECK(usable_until_ms(one, {}) == april_2026_ms);  // a label without an opened life
}

TEST_CASE("sealed life counts from receipt, and goes on after the opening", "[stock]") {
  Container one = container("a");
  const ShelfLife life{.sealed = days(7), .opened = days(5), .mixed = {}};
  const std::int64_t end = april_2026_ms - 3 * day_ms;
  CHECK(usable_until_ms(one, life) == end);
  one.opened_ms = april_2026_ms - 4 * day_ms;
  CHECK(usable_until_ms(one, life) == end);
  CHECK(usable_at(one, life, end - 1));
  CHECK_FALSE(usable_at(one, life, end));
}

TEST_CASE("a label's life never reaches beyond the expiry", "[stock]") {
  Container one = container("a");
  one.opened_ms = april_2026_ms - day_ms;
  const ShelfLife life{.sealed = days(365), .opened = days(30), .mixed = {}};
  CHECK(usable_until_ms(one, life) == april_2026_ms);
}

TEST_CASE("an expiry that cannot be read, or a container disposed of, is never usable", "[stock]") {
  Container one = container("a");
  one.expires = "2026-02-30";
  CHECK_FALSE(usable_at(one, {}, 0));
  CHECK_FALSE(usable_at(one, {}, april_2026_ms));
  Container gone = container("b");
  gone.disposed = true;
  CHECK_FALSE(usable_at(gone, {}, march_30_ms));
}

TEST_CASE("the earliest expiry goes first, even if it came later", "[stock]") {
  // WHO, good distribution practices, "first expiry/first out": the stock with the earliest expiry date is used
  // before an identical stock item with a later expiry date.
  Container later = container("later"), sooner = container("sooner");
  later.expires = "2026-05-31";
  later.received_ms -= 90 * day_ms;
  CHECK(ids(first_expired_first_out(std::vector{later, sooner}, {}, march_30_ms)) ==
        std::vector<std::string>{"sooner", "later"});
}

TEST_CASE("opening makes a container the next one when it shortens its life", "[stock]") {
  Container sealed = container("sealed"), opened = container("opened");
  opened.expires = "2027-01-31";
  opened.opened_ms = march_30_ms - day_ms;
  const std::vector shelf{sealed, opened};
  CHECK(ids(first_expired_first_out(shelf, {.sealed = {}, .opened = days(2), .mixed = {}}, march_30_ms)) ==
        std::vector<std::string>{"opened", "sealed"});
  CHECK(ids(first_expired_first_out(shelf, {}, march_30_ms)) == std::vector<std::string>{"sealed", "opened"});
}

TEST_CASE("at the same expiry: opened, then first received, then id", "[stock]") {
  Container c = container("c"), b = container("b"), early = container("z"), open = container("zz");
  early.received_ms -= 1;
  open.received_ms += day_ms;
  open.opened_ms = march_30_ms;
  CHECK(ids(first_expired_first_out(std::vector{c, b, early, open}, {}, march_30_ms)) ==
        std::vector<std::string>{"zz", "z", "b", "c"});
}

TEST_CASE("what is empty, disposed of or expired is left out", "[stock]") {
  Container empty = container("empty", 0), gone = container("gone"), old = container("old"),
            good = container("good");
  gone.disposed = true;
  old.expires = "2026-03-29";
  CHECK(ids(first_expired_first_out(std::vector{empty, gone, old, good}, {}, march_30_ms)) ==
        std::vector<std::string>{"good"});
}

TEST_CASE("a volume is taken in turn, the last container in part", "[stock]") {
  Container first = container("first", 300), second = container("second", 500), third = container("third", 500);
  second.expires = "2026-04-01";
  third.expires = "2026-04-02";
  const std::vector shelf{third, second, first};
  const auto takes = take_from(shelf, {}, march_30_ms, 700).value();
  CHECK(ids(takes) == std::vector<std::string>{"first", "second"});
  CHECK(takes[0].ul == 300);
  CHECK(takes[1].ul == 400);
  CHECK(take_from(shelf, {}, march_30_ms, 1300).value().size() == 3);
  CHECK(take_from(shelf, {}, march_30_ms, 0).value().empty());
}

TEST_CASE("a shelf that is short says what there is and what is missing", "[stock]") {
  Container first = container("first", 2'000'000), old = container("old", 9'000'000);
  old.expires = "2026-03-01";
  const std::vector shelf{first, old};
  CHECK(take_from(shelf, {}, march_30_ms, 2'000'000).has_value());
  check_refused(take_from(shelf, {}, march_30_ms, 3'000'000), ErrorCode::stock_short,
                "101.5 fl oz is asked for, 67.6 fl oz is on hand and may still be used: 33.9 fl oz is missing.",
                "volume", "Bring another container that is in date, or plan a smaller job.");
  CHECK_FALSE(take_from(shelf, {}, march_30_ms, 2'000'001).has_value());
}

TEST_CASE("the order holds every usable container once, sorted", "[stock][property]") {
  CHECK(rc::check("first expired first out", [] {
    auto shelf = *shelves();
    give_each_its_own_id(shelf);
    const ShelfLife life = *shelf_lives();
    const auto order = first_expired_first_out(shelf, life, march_30_ms);

    std::vector<std::string> expected;
    for (const Container& one : shelf)
      if (usable_at(one, life, march_30_ms) && one.remaining_ul > 0) expected.push_back(one.id);
    auto found = ids(order);
    std::sort(found.begin(), found.end());
    std::sort(expected.begin(), expected.end());
    RC_ASSERT(found == expected);

    for (std::size_t i = 1; i < order.size(); ++i) {
      const Container &a = *order[i - 1], &b = *order[i];
      RC_ASSERT(usable_until_ms(a, life) <= usable_until_ms(b, life));
      if (usable_until_ms(a, life) == usable_until_ms(b, life)) {
        RC_ASSERT(a.opened_ms.has_value() || !b.opened_ms.has_value());
        if (a.opened_ms.has_value() == b.opened_ms.has_value()) RC_ASSERT(a.received_ms <= b.received_ms);
      }
    }
  }));
}

TEST_CASE("the order does not depend on how the shelf was read", "[stock][property]") {
  CHECK(rc::check("any permutation", [] {
    auto shelf = *shelves();
    give_each_its_own_id(shelf);
    const ShelfLife life = *shelf_lives();
    const auto before = ids(first_expired_first_out(shelf, life, march_30_ms));
    std::reverse(shelf.begin(), shelf.end());
    RC_ASSERT(ids(first_expired_first_out(shelf, life, march_30_ms)) == before);
  }));
}

TEST_CASE("takes sum to what was asked, or all that is usable falls short", "[stock][property]") {
  CHECK(rc::check("take", [] {
    auto shelf = *shelves();
    give_each_its_own_id(shelf);
    const ShelfLife life = *shelf_lives();
    const auto asked = *rc::gen::inRange<std::int64_t>(0, 20);
    const auto takes = take_from(shelf, life, march_30_ms, asked);
    RC_ASSERT(takes.has_value() == (asked <= usable_ul(shelf, life)));
    if (!takes) return;
    RC_ASSERT(sum_of(*takes) == asked);
    for (const Take& take : *takes)
      RC_ASSERT(take.ul > 0 && take.ul <= by_id(shelf, take.container).remaining_ul);
    const auto order = ids(first_expired_first_out(shelf, life, march_30_ms));
    const auto taken = ids(*takes);
    RC_ASSERT(std::equal(taken.begin(), taken.end(), order.begin()));
    for (std::size_t i = 0; i + 1 < taken.size(); ++i)  // only the last one is left with something
      RC_ASSERT((*takes)[i].ul == by_id(shelf, taken[i]).remaining_ul);
  }));
}
