// SPDX-License-Identifier: Apache-2.0
#include "season.hpp"

using namespace trace_test;

namespace {

/// J1 and J3 at 12 Mill Lane, J2 elsewhere, J4 without an address, J5 erased.
Season street() {
  Season season;
  season.keep("h1", "A. Alder", "12 Mill Lane, Tarn Vale");
  season.keep("h2", "B. Birch", "112 Millrace Road, Tarn Vale");
  for (const auto& [id, site] :
       {std::pair{"J1", "h1"}, {"J2", "h2"}, {"J3", "h1"}, {"J4", ""}, {"J5", "gone"}}) {
    PastJob job;
    job.id = id;
    job.site = site;
    job.vessel = "C1";
    season.fog(job);
    season.sleep();
  }
  return season;
}

}  // namespace

TEST_CASE("an address tells every job there, with its lots, oldest first", "[ask]") {
  const Season season = street();
  const auto answer = ask_address(season.asked(), "12 mill lane");
  REQUIRE(answer.has_value());
  CHECK(column(*answer, "job") == std::vector<json>{"J1", "J3"});
  CHECK(column(*answer, "day") == std::vector<json>{"2026-03-02", "2026-03-04"});
  CHECK(column(*answer, "lots") == std::vector<json>(2, json::array({"lot of C1"})));
  CHECK(column(*answer, "registration") == std::vector<json>(2, "DEMO-1"));
  CHECK(answer->sentence ==
        "2 jobs at \"12 mill lane\", from 2026-03-02 to 2026-03-04: Fenmist RTU, lots lot of C1.");
}

TEST_CASE("words match from their start, so that an unfinished address finds too much rather than too little",
          "[ask]") {
  const Season season = street();
  const auto found = [&](const std::string& text) { return column(*ask_address(season.asked(), text), "job"); };
  CHECK(found("mill") == std::vector<json>{"J1", "J2", "J3"});
  CHECK(found("lane 12") == std::vector<json>{"J1", "J3"});
  CHECK(found("BIRCH") == std::vector<json>{"J2"});
  CHECK(found("2 mill").empty());  // 12 and 112 do not begin with 2
  CHECK(found("nowhere").empty());
}

TEST_CASE("what cannot be searched is told", "[ask]") {
  const Season season = street();
  const auto answer = ask_address(season.asked(), "nowhere");
  REQUIRE(answer.has_value());
  CHECK(answer->sentence == "No job has an address or customer that matches \"nowhere\".");
  REQUIRE(answer->notes.size() == 2);
  CHECK(answer->notes[0] == "Not searched: 1 job whose address was erased.");
  CHECK(answer->notes[1] == "Not searched: 1 job planned without an address.");
}

TEST_CASE("a job that was planned and not fogged is told as such", "[ask]") {
  Season season;
  season.keep("h1", "", "3 Weir Close");
  PastJob job;
  job.id = "J1";
  job.site = "h1";
  season.plan(job);
  const auto answer = ask_address(season.asked(), "weir");
  REQUIRE(answer->rows.size() == 1);
  CHECK(says(answer->rows[0].words, "not fogged; planned"));
  CHECK(answer->rows[0].data.at("used_ul").is_null());
}

TEST_CASE("an address must hold a word", "[ask]") {
  const Season season;
  for (const char* text : {"", " ", ",;"})
    CHECK(ask_address(season.asked(), text).error().code == ErrorCode::missing_value);
}
