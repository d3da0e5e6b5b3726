// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/due.hpp"

#include "desk/vessels.hpp"
#include "job_world.hpp"

using namespace desk_test;

namespace {

std::vector<Due> due(const JobWorld& world, DueKind kind, int days = 3650) {
  std::vector<Due> list;
  for (Due& one : due_within(world.shop.book(), world.moment(), days))
    if (one.kind == kind) list.push_back(std::move(one));
  return list;
}

}  // namespace

TEST_CASE("a hold is in the calendar from fog-off until time alone would end it, and no longer once released",
          "[due]") {
  JobWorld world("fenmist-rtu");
  CHECK(due(world, DueKind::hold).empty());
  world.meet_before_start();
  world.start();
  world.fog_all();
  world.fog_off();
  const std::int64_t off = world.shop.now();
  const auto minutes = world.job().at("plan").at("hold_minutes").at("total").get<std::int64_t>();
  world.wait(hour_ms);
  const auto hold = due(world, DueKind::hold);
  REQUIRE(hold.size() == 1);
  CHECK(hold[0].from_ms == off);
  CHECK(hold[0].until_ms == off + minutes * 60'000);
  world.wait(minutes * 60'000);
  CHECK(due(world, DueKind::hold).size() == 1);  // over, and still nobody released it
  REQUIRE_FALSE(world.release());
  CHECK(due(world, DueKind::hold).empty());
}

TEST_CASE("a batch falls due at the moment its life ends", "[due]") {
  JobWorld world("brackwater-20");
  world.mix("M1");
  const auto batch = due(world, DueKind::batch);
  REQUIRE(batch.size() == 1);
  CHECK(batch[0].from_ms == world.shop.document("batch", "M1").at("usable_until_ms"));
  CHECK(batch[0].day.empty());
}

TEST_CASE("the last day of a container is its last day of use, opened life included", "[due]") {
  JobWorld world("fenmist-rtu");
  CHECK(due(world, DueKind::container).front().day == "2027-01-31");
  CHECK(due(world, DueKind::container, 30).empty());
  world.shop.done(open_container(world.context(), "C1"));
  const auto view = vessel_view(world.shop.book(), "C1", world.shop.now());
  CHECK(due(world, DueKind::container).front().day == day_of(view->usable_until_ms - 1));
}

TEST_CASE("papers come with the day they end, those of people who left do not", "[due]") {
  JobWorld world("fenmist-rtu");
  const auto papers = due(world, DueKind::credential);
  REQUIRE(papers.size() == 3);
  CHECK(papers[0].day == "2026-12-31");
  CHECK(papers[2].summary == "rowan: fit test (Saltwing 40) ends");
  world.by("ash");
  world.shop.done(retire_person(world.context(), "rowan", "moved away"));
  CHECK(due(world, DueKind::credential).empty());
}

TEST_CASE("what is out of date and still there is told, however long ago", "[due]") {
  JobWorld world("fenmist-rtu");
  world.wait(400 * day_ms);
  CHECK(due(world, DueKind::container, 1).size() == 1);
  CHECK(due(world, DueKind::credential, 1).empty());
}
