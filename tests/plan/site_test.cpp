// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "demo_labels.hpp"

using namespace fogwright;
using namespace fogwright::test;
using nlohmann::json;

namespace {

struct Told {
  std::string where, message;
};

std::vector<Told> faults_of(const std::string& toml) {
  std::vector<Told> told;
  const auto site = read_site(toml, "s");
  if (site) return told;
  for (const Error& fault : site.error()) {
    CHECK(fault.code == ErrorCode::bad_site);
    CHECK_FALSE(fault.hint.empty());
    told.push_back({fault.where, fault.message});
  }
  return told;
}

std::string where_of(const std::string& toml) {
  const auto told = faults_of(toml);
  REQUIRE(told.size() == 1);
  return told[0].where;
}

}  // namespace

TEST_CASE("a site file lands in the request, member by member") {
  const PlanRequest r = read_site(example_site(), "s").value();
  REQUIRE(r.systems.size() == 2);
  CHECK(r.label_name == "product_profiles_demo/fenmist-rtu.toml");
  CHECK(r.split == SplitRule::face_area);
  CHECK(r.reserve == 0.10);
  CHECK(r.systems[0].name == "downstairs");
  CHECK(r.systems[0].area.value_in(unit::square_foot) == Approx(1500));
  REQUIRE(r.systems[0].returns.size() == 2);
  CHECK(r.systems[0].returns[0].face->value_in(unit::square_inch) == Approx(600));
  CHECK(r.ceiling.value_in(unit::foot) == Approx(8));
  CHECK(r.zone.closed.value_in(unit::per_hour) == Approx(0.18));
  CHECK(r.zone.airing->value_in(unit::per_hour) == Approx(5));
  CHECK(r.zone.temperature.in_fahrenheit() == Approx(70));
  CHECK(r.relative_humidity == 0.5);
  CHECK(r.coldest_surface->in_fahrenheit() == Approx(60));
  CHECK(r.calibration->basis == Basis::measured);
  CHECK(r.calibration->flow.value_in(unit::millilitre_per_minute) == Approx(180));
  CHECK(r.fogger.tank->value_in(unit::us_gallon) == Approx(0.5));
  CHECK(r.site.entrances == 3);
  CHECK(r.site.animals);
}

TEST_CASE("each fault of a site file is told where it stands") {
  CHECK(where_of("fromat = 1\n") == "s:1:10");
  CHECK(where_of("format = 2\n") == "s:1:10");
  CHECK(where_of("split = 3\n") == "s:1:9");
  CHECK(where_of("reserve = 1.5\n") == "s:1:11");
  CHECK(where_of("[building]\nceiling = 8\n") == "s:2:11");
  CHECK(where_of("[building]\nceiling = \"8 lb\"\n") == "s:2:11");
  CHECK(where_of("[building]\npurge_air_changes = \"5 /h\"\npurge_fan = \"500 cfm\"\n") == "s:3:13");
  CHECK(where_of("[fogger]\nflow = \"0 mL/min\"\n") == "s:2:8");
  CHECK(where_of("[[fogger.catch]]\ncaught = \"180 mL\"\n") == "s:1:1");
  CHECK(where_of("[site]\nentrances = 0\n") == "s:2:13");
  CHECK(where_of("[site]\nanimals = \"yes\"\n") == "s:2:11");
  CHECK(where_of("[policy]\nleast_hold_high_strength = \"59 min\"\n") == "s:2:28");
  CHECK(where_of("[policy]\noccupant_factor = 9\n") == "s:2:19");
  CHECK(where_of("[[system]]\nreturns = 1\n") == "s:1:1");
  CHECK(where_of("[[system]]\narea = \"2400 sq ft\"\n") == "s:1:1");
  CHECK(where_of("system = 3\n") == "s:1:10");
  CHECK(where_of("when = 2026-01-01\n") == "s:1:8");
}

TEST_CASE("two systems of one name, and more returns than were counted, are refused") {
  CHECK(faults_of("[[system]]\nname = \"a\"\narea = \"900 sq ft\"\nreturns = 1\n"
                  "[[system]]\nname = \"a\"\narea = \"900 sq ft\"\nreturns = 1\n")
            .size() == 1);
  CHECK(faults_of("[[system]]\narea = \"900 sq ft\"\nreturns = 1\n[[system.return]]\n[[system.return]]\n")
            .size() == 1);
}

TEST_CASE("two returns of one name within a system are refused, typed or numbered") {
  const std::string system = "[[system]]\nname = \"up\"\narea = \"900 sq ft\"\n";
  const auto named = [](const std::string& name) { return "[[system.return]]\nname = \"" + name + "\"\n"; };
  const auto twice = faults_of(system + named("hall") + named("den") + named("hall"));
  REQUIRE(twice.size() == 1);
  CHECK(twice[0].where == "s:9:8");
  CHECK(twice[0].message == "two returns of up are called \"hall\"");
  CHECK(where_of(system + named("return 2") + "[[system.return]]\n") == "s:6:1");
  CHECK(where_of(system + "returns = 2\n" + named("return 2")) == "s:4:11");
  CHECK(faults_of(system + named("return 1") + "[[system.return]]\n").empty());
  CHECK(faults_of(system + named("hall") + "[[system]]\narea = \"900 sq ft\"\n" + named("hall")).empty());
}

TEST_CASE("syntax errors come with line and column, more than one at a time") {
  const auto told = faults_of("format = \nsplit = \"equal\"\nreserve = = 3\n");
  REQUIRE(told.size() == 2);
  CHECK(told[0].where.substr(0, 4) == "s:1:");
  CHECK(told[1].where.substr(0, 4) == "s:3:");
}

TEST_CASE("options outrank the file, and their faults name the option") {
  Overlay overlay;
  overlay.members = {{"split", "airflow"}, {"building", {{"ceiling", "9 ft"}}}};
  overlay.names = {{"/building/ceiling", "--ceiling"}};
  const PlanRequest r = read_site(example_site(), "s", overlay).value();
  CHECK(r.split == SplitRule::airflow);
  CHECK(r.ceiling.value_in(unit::foot) == Approx(9));
  CHECK(r.zone.airing->value_in(unit::per_hour) == Approx(5));  // the rest of the table stands
  overlay.members["building"]["ceiling"] = "tall";
  const auto refused = read_site(example_site(), "s", overlay);
  REQUIRE_FALSE(refused);
  CHECK(refused.error()[0].where == "--ceiling");
  CHECK(refused.error()[0].code == ErrorCode::not_understood);
}

TEST_CASE("the same members as JSON make the same plan") {
  const json members = {{"system", {{{"area", "2,400 sq ft"}, {"returns", 3}}}},
                        {"fogger", {{"flow", "180 mL/min"}}}};
  PlanRequest request = read_plan_request(members).value();
  request.label = demo_label(fenmist);
  CHECK(make_plan(request).value().total_seconds == 126);
  for (const json& wrong : {json(3), json::array(), json("x"), json{{"system", 1}}, json{{"system", {1}}},
                            json{{"nothing", 1}}, json{{"system", {{{"area", 2400}, {"returns", 3}}}}}})
    CHECK_FALSE(read_plan_request(wrong));
}
