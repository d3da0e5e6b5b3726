// SPDX-License-Identifier: Apache-2.0
#include "season.hpp"

using namespace trace_test;

namespace {

CatchTest caught(double ml) { return {LiquidVolume(ml, unit::millilitre), FogTime(60, unit::second)}; }

/// gust was tested at 180 mL/min on 2 March; jobs follow; on 5 March it gives another flow.
Season with_jobs(double later_ml) {
  Season season;
  season.shop.done(add_fogger(season.shop.context(), {"gust", {}, {}, {}}));
  season.shop.done(record_catch_test(season.shop.context(), "gust", {caught(180), caught(180), caught(180)}));
  for (const bool measured : {false, true}) {
    season.sleep();
    PastJob job;
    job.id = measured ? "J2" : "J1";
    job.fogger = "gust";
    job.measured = measured;
    job.used_ul = 378'000;  // 126 s at 180 mL/min
    season.fog(job);
  }
  season.sleep();
  season.shop.done(
      record_catch_test(season.shop.context(), "gust", {caught(later_ml), caught(later_ml), caught(later_ml)}));
  return season;
}

}  // namespace

TEST_CASE("a job that went by time got what the later flow gives, rounded up", "[ask]") {
  const Season season = with_jobs(240);
  const auto answer = ask_fogger(season.asked(), "gust");
  REQUIRE(answer.has_value());
  CHECK(column(*answer, "job") == std::vector<json>{"J1", "J2"});
  const json& by_time = answer->rows[0].data;
  CHECK(by_time.at("planned_flow_ul_min") == 180'000);
  CHECK(by_time.at("later_flow_ul_min") == 240'000);
  CHECK(by_time.at("really_ul") == 504'000);    // 240 mL/min × 126 s
  CHECK(by_time.at("against_plan") == "over");  // the plan's most is 432 mL
  CHECK(says(answer->sentence, "2 jobs since 2026-03-02 went by 180 mL/min of gust, which gives 240 mL/min"));
  CHECK(says(answer->sentence, "1 got more than planned, 0 less."));
}

TEST_CASE("what was measured in the tank stands, whatever the flow", "[ask]") {
  const Season season = with_jobs(240);
  const json row = ask_fogger(season.asked(), "gust")->rows[1].data;
  CHECK(row.at("measured") == true);
  CHECK(row.at("really_ul") == 378'000);
  CHECK(row.at("against_plan") == "within");
}

TEST_CASE("too little is told as too little", "[ask]") {
  const Season season = with_jobs(120);
  const auto answer = ask_fogger(season.asked(), "gust");
  CHECK(answer->rows[0].data.at("against_plan") == "under");  // 252 mL, the plan's least is 324 mL
  CHECK(says(answer->sentence, "0 got more than planned, 1 less."));
}

TEST_CASE("the day since when it was off leaves earlier jobs out", "[ask]") {
  const Season season = with_jobs(240);
  CHECK(column(*ask_fogger(season.asked(), "gust", "2026-03-04"), "job") == std::vector<json>{"J2"});
  CHECK(says(ask_fogger(season.asked(), "gust", "2026-03-05")->sentence, "No job since 2026-03-05"));
  CHECK(ask_fogger(season.asked(), "gust", "2026-03-06").error().code == ErrorCode::out_of_range);
  CHECK(ask_fogger(season.asked(), "gust", "March").error().code == ErrorCode::not_understood);
}

TEST_CASE("one test alone does not tell since when, and an unknown fogger is refused", "[ask]") {
  Season season;
  season.shop.done(add_fogger(season.shop.context(), {"gust", {}, {}, {}}));
  season.shop.done(record_catch_test(season.shop.context(), "gust", {caught(180), caught(180), caught(180)}));
  CHECK(ask_fogger(season.asked(), "gust").error().code == ErrorCode::missing_value);
  CHECK(ask_fogger(season.asked(), "breeze").error().code == ErrorCode::not_found);
}
