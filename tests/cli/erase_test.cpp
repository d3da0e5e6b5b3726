// SPDX-License-Identifier: Apache-2.0
// Erasing what lives beside the record, and refusing to while it must be kept.
#include <catch2/catch.hpp>

#include "fogwright/desk/fold.hpp"
#include "fogwright/store.hpp"
#include "job_house.hpp"

using namespace fogwright::test;
using nlohmann::json;

namespace {

const std::vector<std::string> erase_j1 = {"erase", "job", "J1", "--why", "the customer asked for it"};

std::unique_ptr<fogwright::Store> book_of(const JobHouse& house) {
  const std::int64_t now_ms = house.machine.now_ms;
  auto store = fogwright::open_sqlite_book(house.machine.environment.at("FOGWRIGHT_BOOK"), fogwright::fold,
                                           [now_ms] { return now_ms; });
  REQUIRE(store);
  return std::move(*store);
}

/// What is kept under the hash of the job's customer.
std::optional<std::string> kept(JobHouse& house) {
  return book_of(house)->private_bytes(house.job().at("site").get<std::string>());
}

/// The entry of an erasure, and then the power fails: the bytes are still there.
void power_fails_between(JobHouse& house) {
  const fogwright::NewEntry entry{
      fogwright::uuid_v7(house.machine.now_ms, {}),
      house.machine.now_ms,
      "ash",
      "test-device",
      "private-erased",
      {{"of", "job"}, {"key", "J1"}, {"hash", house.job().at("site")}, {"why", "asked"}},
      {},
      {}};
  REQUIRE(book_of(house)->append([&](const auto&, const auto&) { return std::vector{entry}; }));
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("the customer of a job that was given up can be erased once, and the record says who did it") {
  JobHouse house("fenmist-rtu");
  CHECK(house.call(erase_j1).status == 1);  // still to be done
  house.done({"job", "stop", "J1", "--why", "nobody home"});
  CHECK(house.call(erase_j1).status == 1);  // rowan is a technician
  const auto by_owner = [&](std::vector<std::string> words) {
    words.insert(words.end(), {"--by", "ash"});
    return house.call(words);
  };
  CHECK(by_owner({"erase", "job", "J1"}).status == 2);  // no reason
  CHECK(has(kept(house).value_or(""), "a customer"));
  const Ran erased = by_owner(erase_j1);
  INFO(erased.err);
  REQUIRE(erased.status == 0);
  CHECK_FALSE(kept(house));
  const Ran again = by_owner(erase_j1);
  CHECK(again.status == 1);
  CHECK(has(again.err, "nothing to erase"));
  house.done({"book", "verify"});
}

TEST_CASE("an erasure that a power cut left half done is finished when it is asked again") {
  JobHouse house("fenmist-rtu");
  house.done({"job", "stop", "J1", "--why", "nobody home"});
  power_fails_between(house);
  CHECK(kept(house));
  auto words = erase_j1;
  words.insert(words.end(), {"--by", "ash"});
  CHECK(house.call(words).status == 0);
  CHECK_FALSE(kept(house));
  CHECK(house.call(words).status == 1);
}

TEST_CASE("what there is not, and what a paper still needs, is not erased") {
  JobHouse house("fenmist-rtu");
  CHECK(house.call({"erase", "job", "J9", "--why", "asked for", "--by", "ash"}).status != 0);
  CHECK(house.call({"erase", "person", "nobody", "--why", "left", "--by", "ash"}).status != 0);
  const Ran person = house.call({"erase", "person", "rowan", "--why", "left", "--by", "ash"});
  CHECK(person.status == 1);
  CHECK(has(person.err, "the last of its facepiece"));
}

TEST_CASE("what a fogged job keeps is not erased before its time") {
  JobHouse house("fenmist-rtu");
  REQUIRE(house.walk().status == 0);
  auto words = erase_j1;
  words.insert(words.end(), {"--by", "ash", "--json"});
  const Ran early = house.call(words);
  CHECK(early.status == 1);
  CHECK(has(early.error().at("message"), "29 CFR 1910.1020"));
  house.machine.now_ms += 31LL * 366 * 24 * 3'600'000;
  const Ran late = house.call(words);
  INFO(late.err);
  CHECK(late.status == 0);
  CHECK(late.json().at("departures").empty());
}
