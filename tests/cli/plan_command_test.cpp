// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "ran.hpp"

using namespace fogwright;
using namespace fogwright::test;
using nlohmann::json;

TEST_CASE("2,400 sq ft over three returns is 108 to 144 s, 36 to 48 s each (common practice, no source)") {
  const json plan = test::plan({"--area", "2400", "--returns", "3", "--json"}).json();
  const json& system = plan["systems"][0];
  CHECK(system["band_seconds"] == json{108, 144});
  CHECK(system["target_seconds"] == 126);
  REQUIRE(system["returns"].size() == 3);
  for (const json& one : system["returns"]) {
    CHECK(one["band_seconds"] == json{36, 48});
    CHECK(one["seconds"] == 42);
  }
  CHECK(plan["total_seconds"] == 126);
}

TEST_CASE("volume is flow times time, and the load covers the high end and the reserve") {
  const json plan = test::plan({"--area", "2400", "--returns", "3", "--flow", "180 mL/min", "--json"}).json();
  CHECK(plan["volume_ml"]["target"] == 378);  // 180 mL/min * 126 s
  CHECK(plan["volume_ml"]["high"] == 432);    // 180 mL/min * 144 s
  CHECK(plan["load_ml"] == 476);              // 432 * 1.1 = 475.2, rounded up
  CHECK(plan["flow"]["basis"] == "entered");
}

TEST_CASE("a plan in JSON holds at least the members that other tools rely on") {
  const json plan = test::plan({"--area", "2400", "--returns", "3", "--json"}, brackwater).json();
  for (const char* pointer : {"/label/name",
                              "/label/strength_class",
                              "/label/registration",
                              "/systems/0/name",
                              "/systems/0/area_ft2",
                              "/systems/0/band_seconds/1",
                              "/systems/0/target_seconds",
                              "/systems/0/returns/0/name",
                              "/systems/0/returns/0/seconds",
                              "/systems/0/returns/0/band_seconds/1",
                              "/total_seconds",
                              "/volume_ml/target",
                              "/volume_ml/high",
                              "/load_ml",
                              "/flow/ml_per_min",
                              "/flow/basis",
                              "/air/gross_volume_m3",
                              "/air/free_volume_m3",
                              "/air/actives/0/name",
                              "/air/actives/0/cas",
                              "/air/actives/0/released_mg",
                              "/air/actives/0/peak_mg_m3",
                              "/air/actives/0/peak_ppm",
                              "/air/actives/0/worker_limit_mg_m3",
                              "/air/actives/0/idlh_mg_m3",
                              "/air/actives/0/occupant_limit_mg_m3",
                              "/air/actives/0/hazard_ratio",
                              "/air/actives/0/minutes_to_occupant_limit/at_once",
                              "/air/actives/0/minutes_to_occupant_limit/off_gassing",
                              "/respirator/required",
                              "/respirator/facepiece",
                              "/respirator/assigned_protection_factor",
                              "/respirator/cartridges",
                              "/respirator/band_colour",
                              "/hold_minutes/label",
                              "/hold_minutes/policy",
                              "/hold_minutes/model",
                              "/hold_minutes/haze",
                              "/hold_minutes/governs",
                              "/hold_minutes/total",
                              "/requirements/0/id",
                              "/requirements/0/words",
                              "/requirements/0/why",
                              "/requirements/0/citation",
                              "/cautions/0",
                              "/warnings"}) {
    CAPTURE(pointer);
    CHECK(plan.contains(json::json_pointer(pointer)));
  }
}

TEST_CASE("a high-strength oxidiser brings its respirator, its hold and its cautions in the label's order") {
  const json plan = test::plan({"--area", "2400", "--returns", "3", "--json"}, brackwater).json();
  CHECK(plan["respirator"]["required"] == true);
  CHECK(plan["respirator"]["for_mixing"] == true);
  CHECK(plan["respirator"]["for_applying"] == true);
  CHECK(plan["respirator"]["band_colour"] == "yellow");
  CHECK(plan["hold_minutes"]["label"] == 60);
  CHECK(plan["hold_minutes"]["total"].get<int>() >= 60);
  const auto label = read_label(*read_file(brackwater), brackwater);
  CHECK(plan["cautions"] == json(label->precautions));
  CHECK(plan["label"]["signal_word"] == "DANGER");
}

TEST_CASE("above the immediately dangerous level the plan says do not enter, and why") {
  const auto ran =
      test::plan({"--area", "2400", "--returns", "3", "--flow", "900 mL/min", "--ceiling", "7 ft"}, palelight);
  REQUIRE(ran.status == 0);
  CHECK(ran.out.find("DO NOT ENTER") < ran.out.find("SECONDS AT EACH RETURN"));
  const json plan =
      test::plan({"--area", "2400", "--returns", "3", "--flow", "900 mL/min", "--ceiling", "7 ft", "--json"},
                 palelight)
          .json();
  CHECK(plan["air"]["actives"][0]["above_idlh"] == true);
  CHECK(plan["respirator"]["do_not_enter"] == true);
  CHECK(plan["warnings"][0]["id"] == "do-not-enter");
}

TEST_CASE("sizes on the command line split the seconds by face area") {
  const json plan = test::plan({"--area", "2400", "--return", "hall=20x30 in", "--return", "den=10x20 in",
                                "--split", "face", "--json"})
                        .json();
  const json& returns = plan["systems"][0]["returns"];
  CHECK(returns[0]["name"] == "hall");
  CHECK(returns[0]["seconds"] == 95);  // 126 * 600 / 800 = 94.5: the tie goes to the earlier
  CHECK(returns[1]["seconds"] == 31);
}

TEST_CASE("the commented example is a site file that plans") {
  const auto example = run({"plan", "--example"});
  REQUIRE(example.status == 0);
  const TemporaryFile site(example.out);
  const auto ran = run({"plan", "--site", site.path(), "--label", fenmist, "--json"});
  INFO(ran.err);
  REQUIRE(ran.status == 0);
  CHECK(ran.json()["systems"].size() == 2);
  CHECK(ran.json()["flow"]["basis"] == "measured");
}

TEST_CASE("the inverse questions are answered, and the answers hold when planned with") {
  const json asked =
      test::plan({"--area", "2400", "--returns", "3", "--flow", "180 mL/min", "--deadline", "4 h", "--json"},
                 brackwater)
          .json();
  const double need = asked["airing_for_deadline"]["air_changes_per_hour"];
  const json again = test::plan({"--area", "2400", "--returns", "3", "--flow", "180 mL/min",
                                 "--purge-air-changes", std::to_string(need + 0.001), "--json"},
                                brackwater)
                         .json();
  CHECK(again["hold_minutes"]["model"].get<int>() <= 240);
  const json dose = test::plan({"--area", "2400", "--returns", "3", "--flow", "180 mL/min",
                                "--purge-air-changes", "5", "--fit-dose", "2 h", "--json"},
                               brackwater)
                        .json();
  CHECK(dose["volume_for_deadline"]["volume_ml"].get<int>() < dose["volume_ml"]["high"].get<int>());
}

TEST_CASE("the answers to what was asked stand in the short text, below the seconds, and nowhere unasked") {
  const std::vector<std::string> job = {"--area", "2400", "--returns", "3", "--flow", "180 mL/min"};
  const auto text = [&](std::vector<std::string> more) {
    more.insert(more.begin(), job.begin(), job.end());
    const auto ran = test::plan(more, brackwater);
    REQUIRE(ran.status == 0);
    return ran.out;
  };
  const auto count = [](const std::string& out, const std::string& part) {
    std::size_t times = 0;
    for (std::size_t at = out.find(part); at != std::string::npos; at = out.find(part, at + 1)) ++times;
    return times;
  };
  const std::string asked = text({"--deadline", "4 h", "--fit-dose", "4 h"});
  CHECK(asked.find("SECONDS AT EACH RETURN") < asked.find("YOU ASKED"));
  CHECK(count(asked, "YOU ASKED") == 1);
  CHECK(count(asked, " at the least") == 1);
  CHECK(count(asked, " at the most") == 2);  // the dose, and the high end of the load
  CHECK(count(text({"--deadline", "4 h", "--full"}), "YOU ASKED") == 1);
  CHECK(count(text({}), "YOU ASKED") == 0);
}

TEST_CASE("metric units print metric figures and colour stays off away from a terminal") {
  const auto ran = test::plan({"--area", "223 m2", "--returns", "3", "--units", "metric"});
  REQUIRE(ran.status == 0);
  CHECK(ran.out.find(" mL") != std::string::npos);
  CHECK(ran.out.find("fl oz") == std::string::npos);
  CHECK(ran.out.find('\x1b') == std::string::npos);
}

TEST_CASE("NO_COLOR wins over a terminal, and --color always wins over NO_COLOR") {
  std::ostringstream out;
  std::ostringstream err;
  std::map<std::string, std::string> set = {{"NO_COLOR", "1"}};
  Outside outside{
      out,
      err,
      [&set](const char* name) { return set.contains(name) ? std::optional(set.at(name)) : std::nullopt; },
      true,
      true,
      80};
  REQUIRE(run_program({"label", "show", fenmist}, outside) == 0);
  CHECK(out.str().find('\x1b') == std::string::npos);
  REQUIRE(run_program({"label", "show", fenmist, "--color", "always"}, outside) == 0);
  CHECK(out.str().find('\x1b') != std::string::npos);
  set.clear();
  out.str("");
  REQUIRE(run_program({"label", "show", fenmist}, outside) == 0);
  CHECK(out.str().find('\x1b') != std::string::npos);
}

TEST_CASE("no line is wider than the page", "[layout]") {
  const int width = GENERATE(32, 40, 58, 80, 132);
  const auto label = GENERATE(fenmist, brackwater, palelight);
  const auto ran =
      test::plan({"--area", "2400", "--return", "the very long name of a return in the hall upstairs=20x30 in",
                  "--returns", "3", "--full", "--width", std::to_string(width)},
                 label);
  REQUIRE(ran.status == 0);
  std::istringstream lines(ran.out);
  for (std::string line; std::getline(lines, line);) {
    CAPTURE(line);
    const auto columns = std::count_if(line.begin(), line.end(),
                                       [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
    CHECK(columns <= width);
  }
}
