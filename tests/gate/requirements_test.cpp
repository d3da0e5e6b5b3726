// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "gate/rules.hpp"
#include "gate/world.hpp"
#include "golden.hpp"

using namespace fogwright;
using namespace fogwright::testing;
using test::check_golden;

namespace {

std::vector<Requirement> requirements(const GateFacts& facts) {
  std::vector<Requirement> list;
  for (const Rule* rule : rules_for(facts)) list.push_back(requirement(*rule, facts));
  return list;
}

std::vector<Requirement> needs(const Label& label, const AirResult& air, const SiteFacts& site = {}) {
  return requirements({label, respirator_need(label, air), hold_for(label, air, {}), air, site});
}

bool has(const std::vector<Requirement>& list, std::string_view id) {
  return std::ranges::any_of(list, [&](const Requirement& r) { return r.rule->id == id; });
}

std::string listing(const std::vector<Requirement>& list) {
  std::string text;
  std::string_view stage;
  for (const Requirement& r : list) {
    if (stage_name(r.rule->stage) != stage) text.append(stage = stage_name(r.rule->stage)).append("\n");
    text.append("  ").append(r.rule->id).append(": ").append(requirement_words(r)).append("\n");
  }
  return text;
}

const SiteFacts busy_site{.entrances = 3, .animals = true, .sensitive_person = true};

AirResult flammable_air() {
  AirResult air;
  air.flammable.present = true;
  air.flammable.least_airflow = AirFlow(350.2, unit::cubic_foot_per_minute);
  return air;
}

AirResult dangerous_air() {
  AirResult air = air_of({vapour(chlorine_dioxide, 80)});
  air.above_immediately_dangerous = true;
  air.model_time = HoldTime(std::numeric_limits<double>::infinity(), unit::minute);
  return air;
}

AirResult slow_air() {
  AirResult air = air_of({vapour(chlorine_dioxide, 20)});
  air.model_time = minutes(300);
  return air;
}

AirResult aired_out(double air_changes, double from_minutes) {
  AirResult air = slow_air();
  air.airing = PlannedAiring{AirChanges(air_changes, unit::per_hour), HoldTime(from_minutes, unit::minute)};
  return air;
}

}  // namespace

TEST_CASE("the requirements of each strength class are those that were reviewed") {
  check_golden("tests/data/requirements_ready_to_use.txt", listing(needs(ready_to_use(), air_of({}))));
  check_golden("tests/data/requirements_dilutable.txt",
               listing(needs(dilutable(), air_of({vapour(hydrogen_peroxide, 3)}), {.entrances = 2})));
  check_golden("tests/data/requirements_high_strength.txt",
               listing(needs(high_strength(), slow_air(), busy_site)));
  check_golden("tests/data/requirements_do_not_enter.txt", listing(needs(high_strength(), dangerous_air())));
}

TEST_CASE("every rule is asked for in some job") {
  Label asked_to_mix = high_strength();
  asked_to_mix.mixing_gear.respirator = Facepiece::full_facepiece;
  std::set<std::string_view> seen;
  for (const auto& list :
       {needs(ready_to_use(), flammable_air()), needs(dilutable(), air_of({vapour(hydrogen_peroxide, 3)})),
        needs(high_strength(), slow_air(), busy_site), needs(asked_to_mix, slow_air()),
        needs(high_strength(), dangerous_air()), needs(high_strength(), aired_out(4, 120))})
    for (const Requirement& r : list) seen.insert(r.rule->id);
  for (const Rule& rule : all_rules()) {
    CAPTURE(rule.id);
    CHECK(seen.count(rule.id) == 1);
  }
}

TEST_CASE("requirements come in the order of the table, each rule once") {
  const auto list = needs(high_strength(), slow_air(), busy_site);
  CHECK(std::ranges::is_sorted(list, std::less<>{}, &Requirement::rule));
  CHECK(std::ranges::adjacent_find(list, {}, &Requirement::rule) == list.end());
}

TEST_CASE("a high-strength product has people and animals out, entrances posted, someone outside") {
  Label label = high_strength();
  label.everyone_out = false;
  const auto list = needs(label, slow_air(), {.entrances = 4});
  for (const char* id :
       {"everyone-out", "animals-out", "nobody-else-inside", "standby-person", "eyewash", "fit-test",
        "medical-clearance", "clean-shaven", "seal-check-mixing", "seal-check-fogging", "cartridge-words",
        "cartridge-hours", "data-sheet", "hold-passed"}) {
    CAPTURE(id);
    CHECK(has(list, id));
  }
  const auto posted = std::ranges::find(list, find_rule("entrances-posted"), &Requirement::rule);
  REQUIRE(posted != list.end());
  CHECK(posted->value == "4");
}

TEST_CASE("above the immediately dangerous level the regulation's standby replaces the policy's") {
  const auto list = needs(high_strength(), dangerous_air());
  CHECK(has(list, "standby-rescue"));
  CHECK(has(list, "work-from-outside"));
  CHECK_FALSE(has(list, "standby-person"));
  CHECK(has(list, "clear-by-readings"));
  CHECK_FALSE(has(list, "cartridge-hours"));
  CHECK(has(list, "breathing-air"));
}

TEST_CASE("a mild product that lets people stay asks for less") {
  Label label = ready_to_use();
  label.everyone_out = false;
  label.empty_time.reset();
  const auto list = needs(label, air_of({}));
  for (const char* id :
       {"everyone-out", "entrances-posted", "fit-test", "hold-passed", "eyewash", "mix-time"}) {
    CAPTURE(id);
    CHECK_FALSE(has(list, id));
  }
  label.empty_time = minutes(1);
  CHECK(has(needs(label, air_of({})), "everyone-out"));
}

TEST_CASE("a corrosive asks for an eyewash by its signal word or by its hazard class") {
  Label label = ready_to_use();
  CHECK_FALSE(has(needs(label, air_of({})), "eyewash"));
  label.transport.hazard_class = "8";
  CHECK(has(needs(label, air_of({})), "eyewash"));
  label.transport.hazard_class.clear();
  label.signal_word = SignalWord::danger;
  CHECK(has(needs(label, air_of({})), "eyewash"));
}

TEST_CASE("where only readings release, nobody stays inside and no time is offered instead") {
  Label label = ready_to_use();
  label.everyone_out = false;
  Hold hold;
  hold.readings_needed = true;
  CHECK(has(requirements({label, {}, hold, {}, {}}), "everyone-out"));
  hold.model_minutes = 100;
  const auto list = requirements({label, {}, hold, {}, {}});
  CHECK(has(list, "clear-by-readings"));
  CHECK_FALSE(has(list, "clear-by-time-or-readings"));
}

TEST_CASE("the licence is asked for unless the state asks for none") {
  CHECK(has(needs(ready_to_use(), air_of({})), "licence"));
  CHECK_FALSE(has(needs(ready_to_use(), air_of({}), {.licence_asked = false}), "licence"));
}

TEST_CASE("figures in the words are rounded to the side that asks for more") {
  const auto value = [](const std::vector<Requirement>& list, std::string_view id) {
    const auto found = std::ranges::find(list, find_rule(id), &Requirement::rule);
    REQUIRE(found != list.end());
    return requirement_words(*found);
  };
  CHECK_THAT(value(needs(ready_to_use(), flammable_air()), "airflow-proved"),
             Catch::Contains("at least 351 cfm"));
  Label label = high_strength();
  label.shelf_life.mixed = ShelfTime(59.9, unit::minute);
  CHECK_THAT(value(needs(label, slow_air()), "mix-in-life"), Catch::Contains("within 59 min"));
  CHECK_THAT(value(needs(label, slow_air()), "clear-by-time-or-readings"), Catch::Contains("300 min"));
  CHECK_THAT(value(needs(label, slow_air()), "hold-passed"), Catch::Contains("120 min"));
}

TEST_CASE("airing that the hold was reckoned with is asked for, never less of it and never later") {
  CHECK_FALSE(has(needs(high_strength(), slow_air()), "aired-out-as-planned"));
  const auto list = needs(high_strength(), aired_out(3.12, 30.9));
  const auto found = std::ranges::find(list, find_rule("aired-out-as-planned"), &Requirement::rule);
  REQUIRE(found != list.end());
  CHECK(found->value == "3.2 /h, 30 min");
}

TEST_CASE("an airflow that no fan gives is said so") {
  AirResult air = flammable_air();
  air.flammable.least_airflow = AirFlow(std::numeric_limits<double>::infinity(), unit::cubic_foot_per_minute);
  const auto list = needs(ready_to_use(), air);
  const auto found = std::ranges::find(list, find_rule("airflow-proved"), &Requirement::rule);
  REQUIRE(found != list.end());
  CHECK(found->value == "more than any fan's");
}
