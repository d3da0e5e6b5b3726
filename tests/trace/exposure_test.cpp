// SPDX-License-Identifier: Apache-2.0
#include "season.hpp"

using namespace trace_test;

namespace {

Asked asked_of(const JobWorld& world) {
  return {world.shop.book(), [](const std::string&) { return std::nullopt; }, chicago, {}};
}

/// A high-strength job, mixed and fogged by rowan, ash outside, with a reading by rowan.
JobWorld oxidiser() {
  JobWorld world("brackwater-20");
  world.meet_before_start();
  world.start();
  world.meet_all(Stage::during_fogging);
  world.fog_all();
  world.fog_off();
  world.wait(hour_ms);
  NewReading reading;
  reading.substance = "10049-04-4";
  reading.typed = "0.02 mg/m3";
  reading.ug_m3 = 20;
  reading.fan_running = true;
  world.shop.done(take_reading(world.context(), "J1", reading));
  return world;
}

}  // namespace

TEST_CASE("a technician's exposure names the job, the actives, the roles, the minutes and what was worn",
          "[ask]") {
  const JobWorld world = oxidiser();
  const auto answer = ask_exposure(asked_of(world), "rowan");
  REQUIRE(answer.has_value());
  REQUIRE(answer->rows.size() == 1);
  const json& row = answer->rows.front().data;
  CHECK(row.at("roles") == json::array({"mixed", "fogged", "took readings"}));
  CHECK(row.at("fog_minutes") == 3);  // 126 s, rounded up
  CHECK(row.at("facepiece") == "full-facepiece Saltwing 40");
  CHECK(row.at("cartridge") == "K1");
  CHECK(row.at("readings") == json::array({"0.02 mg/m3 of 10049-04-4"}));
  CHECK(row.at("registration") == "DEMO-2");
  CHECK_FALSE(row.at("actives").empty());
  CHECK(says(answer->sentence, "rowan: 1 exposure, on 2026-03-02, to "));
}

TEST_CASE("totals go by what is in the air, with the highest reading", "[ask]") {
  const JobWorld world = oxidiser();
  const auto answer = ask_exposure(asked_of(world), "rowan");
  REQUIRE_FALSE(answer->totals.empty());
  bool found = false;
  for (const AnswerRow& total : answer->totals)
    if (total.data.at("cas") == "10049-04-4") {
      found = true;
      CHECK(total.data.at("fog_minutes") == 3);
      CHECK(total.data.at("highest_reading_ug_m3") == 20);
    }
  CHECK(found);
}

TEST_CASE("a modelled peak is told as modelled, the highest in the totals", "[ask]") {
  const JobWorld world = oxidiser();
  Asked asked = asked_of(world);
  asked.model = [](const std::string& job) {
    CHECK(job == "J1");
    return Modelled{{{"10049-04-4", "chlorine dioxide", 4'100}, {"7722-84-1", "hydrogen peroxide", {}}}, {}};
  };
  const auto answer = ask_exposure(asked, "rowan");
  CHECK(says(answer->rows[0].words,
             "modelled peak 4.1 mg/m3 of chlorine dioxide, of hydrogen peroxide not estimable"));
  CHECK(says(answer->notes.front(), "it is no measurement"));
  for (const AnswerRow& total : answer->totals)
    if (total.data.at("cas") == "10049-04-4") CHECK(total.data.at("highest_modelled_peak_ug_m3") == 4'100);
}

TEST_CASE("a job that cannot be planned again says why it has no peak", "[ask]") {
  const JobWorld world = oxidiser();
  Asked asked = asked_of(world);
  asked.model = [](const std::string&) { return Modelled{{}, "its label is gone"}; };
  CHECK(says(ask_exposure(asked, "rowan")->rows[0].words, "peak not modelled: its label is gone"));
}

TEST_CASE("who stood by has an exposure too, and no respirator of the technician's", "[ask]") {
  const JobWorld world = oxidiser();
  const auto answer = ask_exposure(asked_of(world), "ash");
  REQUIRE(answer->rows.size() == 1);
  CHECK(answer->rows[0].data.at("roles") == json::array({"stood by"}));
  CHECK_FALSE(answer->rows[0].data.contains("facepiece"));
}

TEST_CASE("a batch that was mixed and not fogged is an exposure of its own", "[ask]") {
  JobWorld world("brackwater-20");
  world.mix("M7", false);
  const auto answer = ask_exposure(asked_of(world), "rowan");
  REQUIRE(answer->rows.size() == 1);
  CHECK(answer->rows[0].data.at("what") == "batch");
  CHECK(answer->rows[0].data.at("respirator_worn") == false);
  CHECK(answer->totals.front().data.at("exposures") == 1);
}

TEST_CASE("a job that was only planned exposed nobody, and a stranger is refused", "[ask]") {
  const JobWorld world("fenmist-rtu");
  CHECK(ask_exposure(asked_of(world), "rowan")->sentence == "The book knows of no exposure of rowan.");
  CHECK(ask_exposure(asked_of(world), "nobody").error().code == ErrorCode::not_found);
}
