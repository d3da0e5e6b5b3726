// SPDX-License-Identifier: Apache-2.0
// The table of rules: each has a book that trips it and one that nearly does.
#include <algorithm>
#include <set>

#include "golden.hpp"
#include "rule_pairs.hpp"

using namespace audit_test;
using desk_test::day_ms;

namespace audit_test {

std::vector<std::string_view> Book::broken() const {
  std::vector<std::string_view> rules;
  for (const auto& [rule, count] : audit().by_rule) rules.push_back(rule->id);
  return rules;
}

JobWorld holding(const std::string& product) {
  JobWorld world(product);
  world.meet_before_start();
  world.start();
  world.fog_all();
  world.meet_all(Stage::during_fogging);
  world.fog_off();
  return world;
}

std::int64_t hold_ms(const JobWorld& world, const char* which) {
  return world.job().at("plan").at("hold_minutes").at(which).get<std::int64_t>() * 60'000;
}

void release(JobWorld& world) {
  world.wait(hold_ms(world));
  REQUIRE_FALSE(world.release());
}

void close(JobWorld& world) {
  world.meet_all(Stage::before_close);
  world.shop.done(close_job(world.context(), "J1", desk_test::chicago));
}

namespace {
nlohmann::json clock_of(const JobWorld& world) {
  return {{"boot", world.clock.boot}, {"uptime_ms", world.clock.uptime_ms}};
}
}  // namespace

void write_start(JobWorld& world) {
  const LocalDay day = desk_test::chicago("America/Chicago", world.shop.now());
  world.shop.write(
      "fog-started",
      {{"job", "J1"}, {"clock", clock_of(world)}, {"day", day.date}, {"day_began_ms", day.began_ms}});
}

void write_release(JobWorld& world, const char* ground) {
  world.meet_what_is_open(Stage::before_release);
  write_bare_release(world, ground);
}

void write_bare_release(JobWorld& world, const char* ground) {
  world.shop.write("job-released", {{"job", "J1"}, {"ground", ground}, {"clock", clock_of(world)}});
}

}  // namespace audit_test

namespace {

std::vector<RulePair> all_pairs() {
  std::vector<RulePair> all;
  for (const auto& part : {entry_pairs(), stock_pairs(), job_pairs(), book_pairs()})
    all.insert(all.end(), part.begin(), part.end());
  return all;
}

bool has(const std::vector<std::string_view>& rules, std::string_view rule) {
  return std::find(rules.begin(), rules.end(), rule) != rules.end();
}

std::string rules_page() {
  std::string page =
      "# Rules of the record\n\n"
      "What the audit lists as a departure, gravest first. Made from the tables in "
      "`src/desk/departure_rules.cpp` "
      "and `src/audit/book_rules.cpp` by a test (`FOGWRIGHT_APPROVE=1` rewrites this page); `fogwright audit "
      "rules` prints it. The label, the data sheet and local code outrank every line.\n";
  for (const Severity severity : {Severity::grave, Severity::major, Severity::minor, Severity::note}) {
    page += "\n## ";
    page.append(severity_name(severity))
        .append("\n\n| id | what | kind | citation | what to do |\n|---|---|---|---|---|\n");
    for (const DepartureRule* rule : audit_rules()) {
      if (rule->severity != severity) continue;
      page += "| `" + std::string(rule->id) + "` ";
      for (const std::string_view cell :
           {rule->words, rule_kind_name(rule->kind), rule->citation, rule->remedy})
        page.append("| ").append(cell).append(" ");
      page += "|\n";
    }
  }
  return page;
}

}  // namespace

TEST_CASE("docs/departures.md lists the rules as they are") {
  fogwright::test::check_golden("docs/departures.md", rules_page());
}

TEST_CASE("Every rule has a book that breaks it and one that nearly does") {
  const auto pairs = all_pairs();
  for (const DepartureRule* rule : audit_rules()) {
    INFO("rule " << rule->id);
    const auto pair =
        std::find_if(pairs.begin(), pairs.end(), [&](const RulePair& one) { return one.rule == rule->id; });
    REQUIRE(pair != pairs.end());
    CHECK(has(pair->trips().broken(), rule->id));
    CHECK_FALSE(has(pair->nearly().broken(), rule->id));
  }
  CHECK(pairs.size() == audit_rules().size());
}

TEST_CASE("Every rule has an id of its own, words, a kind with its citation, and a remedy") {
  std::set<std::string_view> ids;
  for (const DepartureRule* rule : audit_rules()) {
    CAPTURE(rule->id, rule->citation);
    CHECK(ids.insert(rule->id).second);
    CHECK(find_audit_rule(rule->id) == rule);
    for (const std::string_view text : {rule->words, rule->remedy}) {
      REQUIRE(text.size() > 8);
      CHECK((text.front() >= 'A' && text.front() <= 'Z'));
      CHECK(text.back() == '.');
      CHECK(text.find(" safe") == text.find(" safety officer"));  // nothing is promised
    }
    switch (rule->kind) {
      case Basis::label:
        CHECK(rule->citation.starts_with("label"));
        break;
      case Basis::policy:
        CHECK(rule->citation.starts_with("company policy"));
        break;
      case Basis::regulation:
        CHECK(rule->citation.starts_with("29 CFR "));
        break;
      case Basis::common_practice:
        CHECK((rule->citation.starts_with("common practice") || rule->citation.starts_with("NIST/SEMATECH")));
        break;
      default:
        FAIL("no rule rests on " << basis_name(rule->kind));
    }
  }
  CHECK(find_audit_rule("no-such-rule") == nullptr);
}
