// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "ran.hpp"

using namespace fogwright;
using namespace fogwright::test;
using nlohmann::json;

TEST_CASE("the demo labels have no fault and can be listed and shown") {
  CHECK(run({"label", "check", fenmist, brackwater, palelight}).status == 0);
  const json list = run({"label", "list", demo_labels, "--json"}).json();
  CHECK(list["labels"].size() == 3);
  for (const std::string& file : {fenmist, brackwater, palelight}) {
    const auto shown = run({"label", "show", file});
    CHECK(shown.status == 0);
    CHECK(shown.out.find("FIRST AID") != std::string::npos);
  }
}

TEST_CASE("checking a profile with faults tells each of them and exits with 3") {
  const TemporaryFile bad("name = \"X\"\nsignal_word = \"loud\"\n");
  const auto ran = run({"label", "check", bad.path(), "--json"});
  CHECK(ran.status == 3);
  CHECK(json::parse(ran.err)["faults"].size() > 3);
}

TEST_CASE("a mixing sheet keeps the label's order and says which gear comes first") {
  const auto text = run({"mix", "--label", brackwater, "--make", "1/2 gal"});
  REQUIRE(text.status == 0);
  CHECK(text.out.find("FIRST PUT ON") < text.out.find("THEN, IN THIS ORDER"));
  const json sheet = run({"mix", "--label", brackwater, "--make", "1/2 gal", "--json"}).json();
  const auto label = read_label(*read_file(brackwater), brackwater);
  REQUIRE(sheet["lines"].size() == label->mixing.front().steps.size());
  for (std::size_t i = 0; i < sheet["lines"].size(); ++i)
    CHECK(sheet["lines"][i]["ingredient"] == label->mixing.front().steps[i].ingredient);
}

TEST_CASE("a ready-to-use label has nothing to mix") {
  const auto ran = run({"mix", "--label", fenmist, "--make", "1 gal", "--json"});
  CHECK(ran.status == 1);
  CHECK(ran.error()["code"] == "label-incomplete");
}

TEST_CASE("a route's load is the sum of its jobs' high ends and the reserve") {
  const json route = run({"route", "--label", fenmist, "--area", "2400", "--area", "1200", "--flow",
                          "180 mL/min", "--tank", "1/2 gal", "--json"})
                         .json();
  CHECK(route["jobs_ml"] == json{432, 216});
  CHECK(route["needed_ml"] == 713);  // 648 * 1.1 = 712.8
  CHECK(route["fills"] == 1);
}

TEST_CASE("what one fill holds at most is rounded down, the load itself up") {
  const auto route = [](std::vector<std::string> more) {
    more.insert(more.begin(),
                {"route", "--label", fenmist, "--area", "2400", "--area", "1200", "--flow", "180 mL/min"});
    return run(more);
  };
  CHECK(route({"--tank", "450 mL"}).out.find(" 15.2 fl oz") != std::string::npos);  // 15.216
  CHECK(route({"--tank", "450.7 mL", "--json"}).json()["fill_ml"] == 450);
  CHECK(route({"--json"}).json()["fill_ml"] == 713);  // 648 * 1.1 = 712.8
  CHECK(test::plan({"--area", "2400", "--returns", "3", "--tank", "450.7 mL", "--json"})
            .json()["load"]["fill_ml"] == 450);
}

TEST_CASE("catch tests give the flow with its spread, and a wide one is said to be wide") {
  const json good = run({"calibrate", "--catch", "198 mL in 60 s", "--catch", "204 mL in 60 s", "--catch",
                         "201 mL in 60 s", "--json"})
                        .json();
  CHECK(good["ml_per_min"].get<double>() == Approx(201));
  CHECK(good["large_spread"] == false);
  const json wide = run({"calibrate", "--catch", "150 mL in 60 s", "--catch", "204 mL in 60 s", "--catch",
                         "201 mL in 60 s", "--json"})
                        .json();
  CHECK(wide["large_spread"] == true);
  CHECK(run({"calibrate", "--catch", "180 mL"}).status == 2);
  CHECK(run({"calibrate"}).status == 2);
}
