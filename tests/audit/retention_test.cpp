// SPDX-License-Identifier: Apache-2.0
// Periods against 29 CFR 1910.1020(d)(1), 1910.134(m)(2)(ii) and 7 USC 136i-1(a).
#include "audit/retention_rules.hpp"

#include <algorithm>
#include <set>

#include "rule_pairs.hpp"

using namespace audit_test;
using namespace desk_test;

namespace {

/// 2026-03-02, the day of the job, and its anniversaries' ends (UTC).
constexpr std::int64_t end_of_2028_03_02 = 1'835'654'400'000;
constexpr std::int64_t end_of_2056_03_02 = 2'719'267'200'000;

std::set<std::string_view> held(const Result<std::vector<RetentionHold>>& holds) {
  REQUIRE(holds.has_value());
  std::set<std::string_view> ids;
  for (const RetentionHold& hold : *holds) ids.insert(hold.rule->id);
  return ids;
}

std::set<std::string_view> held_of_job(const JobWorld& world, std::int64_t at_ms) {
  return held(retention_of_job(world.shop.book(), "J1", at_ms));
}

using Ids = std::set<std::string_view>;

const RetentionLine& line(const std::vector<RetentionLine>& lines, std::string_view id) {
  return *std::find_if(lines.begin(), lines.end(),
                       [&](const RetentionLine& one) { return one.rule->id == id; });
}

}  // namespace

TEST_CASE("A period ends with the day so many years later, a leap day with the first of March") {
  constexpr std::int64_t leap_noon = 1'709'208'000'000;  // 2024-02-29 12:00 UTC
  CHECK(kept_until_ms(start_ms, 2) == end_of_2028_03_02);
  CHECK(kept_until_ms(start_ms, 30) == end_of_2056_03_02);
  CHECK(kept_until_ms(leap_noon, 2) == 1'772'409'600'000);  // end of 2026-03-01
  CHECK(kept_until_ms(leap_noon, 4) == 1'835'481'600'000);  // end of 2028-02-29
}

TEST_CASE("A customer's name is held back two years by the application, thirty by the exposure record") {
  const JobWorld world = holding();
  CHECK(held_of_job(world, world.shop.now()) == Ids{"application", "exposure"});
  CHECK(held_of_job(world, end_of_2028_03_02 - 1) == Ids{"application", "exposure"});
  CHECK(held_of_job(world, end_of_2028_03_02) == Ids{"exposure"});
  CHECK(held_of_job(world, end_of_2056_03_02 - 1) == Ids{"exposure"});
  CHECK(held_of_job(world, end_of_2056_03_02).empty());
  CHECK(retention_of_job(world.shop.book(), "J9", 0).error().code == ErrorCode::not_found);
}

TEST_CASE("A job that was never fogged holds nothing back once it is stopped") {
  JobWorld world("fenmist-rtu");
  CHECK(held_of_job(world, world.shop.now()) == Ids{"application"});
  world.shop.done(stop_job(world.context(), "J1", "called off"));
  CHECK(held_of_job(world, world.shop.now()).empty());
}

TEST_CASE("A fit test is kept until the next of that facepiece; clearance until 30 years after employment") {
  JobWorld world("fenmist-rtu");
  const auto papers = [&](std::int64_t at_ms) {
    return held(retention_of_person(world.shop.book(), "rowan", at_ms));
  };
  CHECK(papers(world.shop.now()) == Ids{"fit-test", "medical"});
  CHECK(papers(end_of_2056_03_02) == Ids{"fit-test", "medical"});  // still employed
  world.by("ash");
  world.shop.done(retire_person(world.context(), "rowan", "moved away"));
  CHECK(papers(end_of_2056_03_02 - 1) == Ids{"fit-test", "medical"});
  CHECK(papers(end_of_2056_03_02) == Ids{"fit-test"});
  CHECK(retention_of_person(world.shop.book(), "nobody", 0).error().code == ErrorCode::not_found);
}

TEST_CASE("The list counts what a book holds and says what comes next") {
  JobWorld world = holding();
  world.by("ash");
  Credential again;
  again.handle = "rowan";
  again.what = CredentialKind::fit_test;
  again.issued = "2026-03-01";
  again.facepiece = Facepiece::full_facepiece;
  again.facepiece_model = "Saltwing 40";
  again.facepiece_size = "M";
  world.shop.done(add_credential(world.context(), again));
  const auto lines = retention(world.shop.book(), world.shop.now());
  REQUIRE(lines.size() == retention_rules().size());
  CHECK(line(lines, "exposure").count == 1);
  CHECK(line(lines, "exposure").next_over_ms == end_of_2056_03_02);
  CHECK(line(lines, "application").next_over_ms == end_of_2028_03_02);
  CHECK(line(lines, "fit-test").count == 2);
  CHECK(line(lines, "fit-test").over == 1);  // the one before
  CHECK(line(lines, "medical").count == 1);
  CHECK(line(lines, "medical").over == 0);
  CHECK_FALSE(line(lines, "medical").next_over_ms);
  CHECK(line(lines, "label").count == 3);
  CHECK(line(lines, "cartridge-schedule").over == 0);
  CHECK(line(retention(world.shop.book(), end_of_2028_03_02), "application").over == 1);
}

TEST_CASE("Every period has a citation and a number of years where it runs by years") {
  for (const RetentionRule& rule : retention_rules()) {
    CAPTURE(rule.id);
    CHECK_FALSE(rule.citation.empty());
    const bool by_years = rule.from == KeptFrom::use || rule.from == KeptFrom::end_of_employment;
    CHECK((rule.years > 0) == by_years);
  }
}
