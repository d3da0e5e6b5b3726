// SPDX-License-Identifier: Apache-2.0
#include "season.hpp"

using namespace trace_test;

namespace {

void mix(Season& season, const std::string& batch) {
  season.shop.by("rowan");
  MixRequest request;
  request.batch = batch;
  request.product = "brackwater-20";
  request.made_ul = 2 * litre;
  request.parts = {{"A1", {}}, {"B1", {}}};
  request.place = "heron";
  request.respirator_worn = true;
  season.shop.done(mix_batch(season.shop.context(), request));
}

Season mixed() {
  Season season;
  season.shop.receive("A1", "brackwater-20", litre, "2027-01-31", "heron", {}, "Part A concentrate");
  season.shop.receive("B1", "brackwater-20", litre, "2027-01-31", "heron", {},
                      "Part B activator (citric acid)");
  mix(season, "M1");
  return season;
}

PastJob with(const std::string& id, const std::string& product, const std::string& vessel) {
  PastJob job;
  job.id = id;
  job.product = product;
  job.vessel = vessel;
  return job;
}

}  // namespace

TEST_CASE("a lot is followed from its container to its jobs", "[ask]") {
  Season season;
  season.keep("h1", "A. Alder", "12 Mill Lane");
  PastJob first = with("J1", "fenmist-rtu", "C1");
  first.site = "h1";
  season.fog(first);
  season.sleep();
  season.shop.receive("C2", "fenmist-rtu", litre, "2027-01-31");
  season.fog(with("J2", "fenmist-rtu", "C2"));
  const auto answer = ask_lot(season.asked(), "LOT of c1");
  REQUIRE(answer.has_value());
  CHECK(column(*answer, "what") == std::vector<json>{"container", "job"});
  CHECK(column(*answer, "id") == std::vector<json>{"C1", "J1"});
  CHECK(answer->rows[0].data.at("remaining_ul") == 4 * litre - 400'000);
  CHECK(answer->rows[1].data.at("drawn_ul") == 400'000);
  CHECK(answer->rows[1].data.at("address") == "12 Mill Lane");
  CHECK(says(answer->sentence, "1 container and 1 job, on 2026-03-02; "));
}

TEST_CASE("a lot is followed through the batch it was mixed into", "[ask]") {
  Season season = mixed();
  season.fog(with("J1", "brackwater-20", "M1"));
  for (const char* lot : {"lot of A1", "lot of B1"}) {
    const auto answer = ask_lot(season.asked(), lot);
    REQUIRE(answer.has_value());
    CHECK(column(*answer, "what") == std::vector<json>{"container", "batch", "job"});
    CHECK(answer->rows[2].data.at("through") == json::array({"M1"}));
    CHECK(says(answer->sentence, "1 container, 1 batch and 1 job"));
  }
  CHECK(column(*ask_address(season.asked(), "x"), "job").empty());
}

TEST_CASE("a lot that was put right is found by what it is and by what it was entered as", "[ask]") {
  Season season = mixed();
  season.fog(with("J1", "brackwater-20", "M1"));
  ContainerCorrection correction;
  correction.container = "A1";
  correction.lot = "K71";
  correction.why = "two digits were swapped";
  season.shop.done(correct_container(season.shop.context(), correction));
  for (const char* lot : {"K71", "lot of A1"}) {
    const auto answer = ask_lot(season.asked(), lot);
    REQUIRE(answer.has_value());
    CHECK(column(*answer, "id") == std::vector<json>{"A1", "M1", "J1"});
    CHECK(says(answer->sentence, "Lot " + std::string(lot) + " ("));
    CHECK(answer->notes == std::vector<std::string>{"A1 was entered under lot lot of A1, and put right to lot "
                                                    "K71: it is found by each"});
  }
  const auto other = ask_lot(season.asked(), "lot of B1");
  CHECK(column(*other, "id") == std::vector<json>{"B1", "M1", "J1"});
  CHECK(other->notes.empty());
}

TEST_CASE("what is disposed of is not left, and a lot that never came is refused", "[ask]") {
  Season season;
  season.shop.done(dispose(season.shop.context(), "C1", {}, "by the label"));
  const auto answer = ask_lot(season.asked(), "lot of C1");
  CHECK(says(answer->sentence, "nothing is left"));
  CHECK(answer->rows[0].data.at("disposed") == true);
  CHECK(ask_lot(season.asked(), "lot of C9").error().code == ErrorCode::not_found);
  CHECK(ask_lot(season.asked(), "").error().code == ErrorCode::missing_value);
}

TEST_CASE("a lot that was noted for a job counts before anything is drawn", "[ask]") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.start();
  const Asked asked{world.shop.book(), [](const std::string&) { return std::nullopt; }, chicago, {}};
  const auto answer = ask_lot(asked, "lot of C1");
  REQUIRE(answer->rows.size() == 2);
  CHECK(answer->rows[1].data.at("job") == "J1");
  CHECK(answer->rows[1].data.at("drawn_ul") == 0);
  CHECK(says(answer->rows[1].words, "nothing drawn yet out of C1"));
}
