// SPDX-License-Identifier: Apache-2.0
// From fog-off to close: the hold, readings, release, and what clocks do to them.
#include <rapidcheck.h>

#include <algorithm>

#include "desk/job_document.hpp"
#include "desk/job_hold.hpp"
#include "desk/vessels.hpp"
#include "job_world.hpp"

using namespace desk_test;
using nlohmann::json;

namespace {

constexpr std::int64_t minute = 60'000;
const std::string chlorine_dioxide = "10049-04-4";

JobWorld holding(const std::string& product) {
  JobWorld world(product);
  world.meet_before_start();
  world.start();
  world.fog_all();
  world.meet_all(Stage::during_fogging);
  world.fog_off();
  return world;
}

std::int64_t floor_ms(const JobWorld& world) {
  return world.job().at("plan").at("hold_minutes").at("floor").get<std::int64_t>() * minute;
}
std::int64_t total_ms(const JobWorld& world) {
  return world.job().at("plan").at("hold_minutes").at("total").get<std::int64_t>() * minute;
}

void read(JobWorld& world, std::int64_t ug_m3, bool fan = true) {
  world.shop.done(take_reading(world.context(), "J1",
                               {chlorine_dioxide, ug_m3, std::to_string(ug_m3) + " ug/m3", fan, "meter 3"}));
}

std::vector<std::string> departures_of(const JobWorld& world) { return world.shop.departures(); }

}  // namespace

TEST_CASE("One function decides every step of a job") {
  using S = JobState;
  using T = JobStep;
  const std::vector<std::tuple<S, T, S>> allowed = {
      {S::planned, T::clear, S::cleared},   {S::cleared, T::start, S::fogging},
      {S::fogging, T::fog_off, S::holding}, {S::holding, T::release, S::released},
      {S::released, T::close, S::closed},   {S::planned, T::stop, S::stopped},
      {S::cleared, T::stop, S::stopped},    {S::fogging, T::stop, S::stopped},
      {S::holding, T::stop, S::stopped},    {S::released, T::stop, S::stopped},
      {S::stopped, T::release, S::stopped}};
  std::size_t found = 0;
  for (const S from : {S::planned, S::cleared, S::fogging, S::holding, S::released, S::closed, S::stopped})
    for (const T step : {T::clear, T::start, T::fog_off, T::release, T::close, T::stop}) {
      const auto to = next_state(from, step);
      if (!to) continue;
      ++found;
      CHECK(std::find(allowed.begin(), allowed.end(), std::tuple{from, step, *to}) != allowed.end());
    }
  CHECK(found == allowed.size());
  CHECK(read_job_state(job_state_name(S::holding)) == S::holding);
}

TEST_CASE("A release is refused to the last millisecond of the hold, and each refusal is written") {
  JobWorld world = holding("fenmist-rtu");
  CHECK(world.release()->code == ErrorCode::hold_running);
  world.wait(total_ms(world) - 1);
  CHECK(world.release()->code == ErrorCode::hold_running);
  CHECK(world.job().at("releases_refused") == 2);
  CHECK(world.shop.entries().back().kind == "release-refused");
  world.wait(1);
  CHECK_FALSE(world.release());
  CHECK(world.state() == JobState::released);
  CHECK(world.job().at("released").at("ground") == "time");
  CHECK(world.job().at("released").at("by") == "rowan");
}

TEST_CASE("Readings release after the floor, two of them, and a high one holds") {
  JobWorld world = holding("brackwater-20");
  REQUIRE(floor_ms(world) < total_ms(world));
  const std::int64_t limit = world.job().at("plan").at("limits").at(0).at("occupant_ug_m3");
  read(world, limit);
  world.wait(floor_ms(world));
  CHECK(world.release());
  read(world, limit);
  world.wait(15 * minute);
  CHECK(world.release());
  read(world, limit + 1);
  CHECK(world.release()->message.find("above the limit") != std::string::npos);
  world.wait(minute);
  read(world, limit);
  world.wait(15 * minute);
  read(world, limit);
  CHECK_FALSE(world.release());
  CHECK(world.job().at("released").at("ground") == "readings");
}

TEST_CASE("After the modelled time a high reading still holds the building") {
  JobWorld world = holding("brackwater-20");
  const std::int64_t limit = world.job().at("plan").at("limits").at(0).at("occupant_ug_m3");
  world.wait(total_ms(world));
  read(world, limit + 1);
  CHECK(world.release()->code == ErrorCode::hold_running);
  world.wait(minute);
  read(world, limit);
  CHECK_FALSE(world.release());
}

TEST_CASE("A release waits for the items before it") {
  JobWorld world = holding("fenmist-rtu");
  world.wait(total_ms(world));
  CHECK(world.release_as_it_stands()->code == ErrorCode::gate_closed);
  world.meet_what_is_open(Stage::before_release);
  world.shop.done(lapse_requirement(world.context(), "J1", "haze-gone", "looked again"));
  CHECK(world.release_as_it_stands()->code == ErrorCode::gate_closed);
  world.met("haze-gone", "yes");
  CHECK_FALSE(world.release_as_it_stands());
}

TEST_CASE("Nobody has aired out or looked for haze before the part of the hold that nothing shortens is over") {
  for (const char* item : {"aired-out-label", "haze-gone"}) {
    JobWorld world = holding("brackwater-20");
    const auto meet = [&] { return meet_requirement(world.context(), "J1", item, "yes", chicago); };
    world.wait(floor_ms(world) - 1);
    const Error early = Shop::refused(meet());
    CHECK(early.code == ErrorCode::hold_running);
    CHECK(early.message.find(" in 1 min,") != std::string::npos);
    world.set_clock(day_ms);  // the clock that was set does not let anybody in
    CHECK(Shop::refused(meet()).code == ErrorCode::hold_running);
    world.set_clock(-day_ms);
    world.wait(1);
    CHECK(meet());
  }
}

TEST_CASE("What was told of a house before its hold let anybody in has to be told again") {
  const auto told = [](JobWorld& world, const char* item) {
    world.shop.write("requirement-met", {{"job", "J1"},
                                         {"requirement", item},
                                         {"by", "rowan"},
                                         {"evidence", {{"confirmed", true}}},
                                         {"at_ms", world.shop.now()}});
  };
  // Another program took it right after the fog.
  JobWorld early = holding("fenmist-rtu");
  early.wait(minute);
  early.meet_what_is_open(Stage::before_release);
  told(early, "haze-gone");
  early.wait(total_ms(early));
  const auto refused = early.release_as_it_stands();
  REQUIRE(refused);
  CHECK(refused->code == ErrorCode::gate_closed);
  CHECK(refused->message.find("haze-gone (it was met before the part of the hold") != std::string::npos);
  early.met("haze-gone", "yes");
  CHECK_FALSE(early.release());
  // The hold began anew after it was told.
  JobWorld anew = holding("fenmist-rtu");
  anew.wait(total_ms(anew));
  anew.meet_what_is_open(Stage::before_release);
  anew.shop.done(record_return(anew.context(), "J1", "main", "hall", 1'000));
  anew.wait(total_ms(anew));
  CHECK(anew.release_as_it_stands()->code == ErrorCode::gate_closed);
  anew.meet_all(Stage::before_release);
  CHECK_FALSE(anew.release());
}

TEST_CASE("Airing that the hold was reckoned with is answered for when the hold is over, not at its floor") {
  JobWorld world = holding("brackwater-20");
  REQUIRE(floor_ms(world) < total_ms(world));
  const auto meet = [&] {
    return meet_requirement(world.context(), "J1", "aired-out-as-planned", "yes", chicago);
  };
  CHECK(Shop::refused(meet()).hint == "keep everyone out until then");
  world.wait(total_ms(world) - 1);
  CHECK(Shop::refused(meet()).hint == "keep the fan running until then");
  world.wait(1);
  CHECK(meet());
}

TEST_CASE("An owner who is nothing else may not release") {
  JobWorld world = holding("fenmist-rtu");
  world.wait(total_ms(world));
  world.by("ash");
  world.shop.done(enrol_person(world.context(), {"elm", {Role::owner}, {}}));
  world.by("elm");
  CHECK(release_job(world.context(), "J1", chicago).error().code == ErrorCode::not_permitted);
  CHECK(world.state() == JobState::holding);
}

TEST_CASE("A clock set forward does not shorten the hold within a boot, and is recorded") {
  JobWorld world = holding("fenmist-rtu");
  world.set_clock(total_ms(world));
  CHECK(world.release()->code == ErrorCode::hold_running);
  const auto rules = departures_of(world);
  CHECK(std::count(rules.begin(), rules.end(), "clock-set-in-hold") == 1);
  world.wait(total_ms(world) - 1);
  CHECK(world.release());
  world.wait(1);
  CHECK_FALSE(world.release());
}

TEST_CASE("A clock set back lengthens the hold, and is recorded") {
  JobWorld world = holding("fenmist-rtu");
  world.wait(total_ms(world) / 2);
  world.set_clock(-hour_ms);
  world.wait(total_ms(world) - total_ms(world) / 2);
  CHECK(world.release()->code == ErrorCode::hold_running);
  world.wait(hour_ms - 1);
  CHECK(world.release());
  world.wait(1);
  CHECK_FALSE(world.release());
  const auto rules = departures_of(world);
  CHECK(std::count(rules.begin(), rules.end(), "clock-set-in-hold") >= 1);
}

TEST_CASE("A reboot does not shorten the hold; that the calendar alone told it is recorded") {
  JobWorld world = holding("fenmist-rtu");
  world.wait(10 * minute);
  world.reboot(5 * minute);
  world.wait(total_ms(world) - 15 * minute - 1);
  CHECK(world.release()->code == ErrorCode::hold_running);
  world.wait(1);
  CHECK_FALSE(world.release());
  const auto rules = departures_of(world);
  CHECK(std::count(rules.begin(), rules.end(), "hold-by-calendar") == 2);
  // And a clock set back across a reboot lengthens.
  JobWorld other = holding("fenmist-rtu");
  other.reboot();
  other.set_clock(-3 * day_ms);
  other.wait(total_ms(other));
  CHECK(other.release()->code == ErrorCode::hold_running);
}

TEST_CASE("A clock set back before fog-off and right again after a reboot does not shorten the hold") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.start();
  world.fog_all();
  world.set_clock(-day_ms);
  world.fog_off();
  world.reboot();
  world.set_clock(day_ms);
  CHECK(world.release()->code == ErrorCode::hold_running);
  world.wait(total_ms(world));
  CHECK_FALSE(world.release());
}

TEST_CASE("A clock that stands before the plan does not start the job") {
  JobWorld world("fenmist-rtu");
  world.set_clock(-day_ms);
  world.meet_before_start();
  const auto decision = start_job(world.context(), "J1", chicago);
  REQUIRE(decision.has_value());
  REQUIRE(decision->refusal);
  CHECK(decision->refusal->message ==
        "1 item is open: clock (the clock stands before the job's last entry: set it)");
}

TEST_CASE("Time counts the less of calendar and uptime, and is never negative") {
  CHECK(rc::check("elapsed", [](std::int32_t calendar, std::int32_t uptime, bool one_boot) {
    const Moment from{1'000'000'000'000, {"a", 50}};
    const Moment to{from.ms + calendar, {one_boot ? "a" : "b", 50 + std::int64_t{uptime}}};
    const std::int64_t counted = elapsed_ms(from, to);
    RC_ASSERT(counted >= 0);
    RC_ASSERT(counted <= std::max<std::int64_t>(0, calendar));
    if (one_boot) RC_ASSERT(counted <= std::max<std::int64_t>(0, uptime));
    if (!one_boot) RC_ASSERT(counted == std::max<std::int64_t>(0, calendar));
  }));
}

TEST_CASE("No sequence of requests, waits and clock changes releases before the floor has passed") {
  CHECK(rc::check("floor", [] {
    JobWorld world = holding("brackwater-20");
    const std::int64_t floor = floor_ms(world);
    std::int64_t truly_passed = 0;
    for (int step = 0; step < 25; ++step) {
      const std::int64_t ms = *rc::gen::inRange<std::int64_t>(0, floor / 3);
      switch (*rc::gen::inRange(0, 6)) {
        case 0:
        case 1:
          world.wait(ms);
          truly_passed += ms;
          break;
        case 2:  // set at will within the boot that let the fog out
          world.set_clock(*rc::gen::element<std::int64_t>(-ms, ms, 10 * ms));
          break;
        case 3:
          world.by(*rc::gen::element<std::string>("rowan", "ash"));
          break;
        case 4: {
          // A clock may stand before the last reading: whatever the desk says is fine here.
          const auto reading = take_reading(world.context(), "J1", {chlorine_dioxide, 0, "0", true, ""});
          if (reading) world.shop.done(reading);
          break;
        }
        default: {
          const auto decision = release_job(world.context(), "J1", chicago);
          if (!decision) break;
          world.write(decision);
        }
      }
      if (world.state() == JobState::released) {
        RC_ASSERT(truly_passed >= floor);
        return;
      }
    }
  }));
}

TEST_CASE("A return off its band, and use off the plan, are recorded and listed") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.start();
  // A pause makes two stretches; they add up.
  for (const std::int64_t ms : {20'000, 43'000})
    world.shop.done(record_return(world.context(), "J1", "", "hall", ms));
  world.shop.done(record_return(world.context(), "J1", "main", "den", 90'000));
  world.fog_off(100'000);
  const auto rules = departures_of(world);
  CHECK(rules == std::vector<std::string>{"time-off-band", "total-off-band", "volume-off-plan", "over-fogged"});
  CHECK(world.job().at("used_ul") == 591'470 - 100'000);  // 20 fl oz, rounded down
  const json first = world.shop.document("departure", [&] {
    std::string key;
    world.shop.book().each("departure", false, [&](const std::string& k, const json&) {
      if (key.empty()) key = k;
    });
    return key;
  }());
  CHECK(first.at("what").get<std::string>().find("den was fogged 90.0 s") != std::string::npos);
}

TEST_CASE("More left than there was is refused; without a measure the use is reckoned from the time") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.start();
  world.fog_all();
  FogOff off;
  off.left_ul = litre;
  CHECK(Shop::refused(end_fog(world.context(), "J1", off)).code == ErrorCode::out_of_range);
  off.left_ul = std::nullopt;
  world.shop.done(end_fog(world.context(), "J1", off));
  const json job = world.job();
  CHECK(job.at("measured") == "by-time");
  const double flow = job.at("plan").at("flow_ul_min").get<double>();
  CHECK(job.at("used_ul").get<double>() == Approx(flow * 126 / 60).margin(1));
}

TEST_CASE("A job closes when all is put back, draws what it used and adds the cartridge's hours") {
  JobWorld world = holding("brackwater-20");
  world.wait(total_ms(world));
  REQUIRE_FALSE(world.release());
  CHECK(Shop::refused(close_job(world.context(), "J1", chicago)).code == ErrorCode::gate_closed);
  const std::int64_t before = world.shop.remaining("M1");
  world.meet_all(Stage::before_close);
  world.shop.done(close_job(world.context(), "J1", chicago));
  CHECK(world.state() == JobState::closed);
  const std::int64_t used = world.job().at("used_ul");
  CHECK(used == 384'470);
  CHECK(before - world.shop.remaining("M1") == used);
  CHECK(world.shop.document("cartridge", "K1").at("used_minutes") == 40);
  bool live = false;
  world.shop.book().each("job", true, [&](const std::string&, const json&) { live = true; });
  CHECK_FALSE(live);
  CHECK(world.shop.departures().empty());
}

TEST_CASE("What was not kept while fogging is said, recorded and listed; the job can still close") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.start();
  world.fog_all();
  world.meet_all(Stage::during_fogging);
  world.shop.done(lapse_requirement(world.context(), "J1", "valve-before-motor", "motor tripped"));
  world.fog_off();
  world.wait(total_ms(world));
  REQUIRE_FALSE(world.release());
  world.meet_all(Stage::before_close);
  world.shop.done(close_job(world.context(), "J1", chicago));
  CHECK(departures_of(world) == std::vector<std::string>{"item-not-kept"});
}

TEST_CASE("A job stopped while fogging holds the building as long as any other") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.start();
  world.wait(20'000);
  world.shop.done(stop_job(world.context(), "J1", "the fan failed"));
  CHECK(world.state() == JobState::stopped);
  CHECK(world.release()->code == ErrorCode::hold_running);
  world.wait(total_ms(world));
  CHECK_FALSE(world.release());
  CHECK(world.job().contains("released"));
  // One that was stopped before any fog has nothing to release.
  JobWorld early("fenmist-rtu");
  early.shop.done(stop_job(early.context(), "J1", "nobody home"));
  CHECK(release_job(early.context(), "J1", chicago).error().code == ErrorCode::wrong_state);
}

TEST_CASE("A job stopped while fogging draws what the fog took by time, out of its container") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.start();
  const std::string vessel = vessels_of(world.job()).front();
  const auto left = [&] { return vessel_in(world.shop.book(), vessel)->remaining_ul(); };
  const std::int64_t before = left();
  world.shop.done(record_return(world.context(), "J1", "main", "hall", 20'000));
  world.shop.done(stop_job(world.context(), "J1", "the fan failed"));
  const std::int64_t flow = world.job().at("plan").at("flow_ul_min");
  CHECK(world.job().at("used_ul") == (flow * 20'000 + 59'999) / 60'000);
  CHECK(before - left() == world.job().at("used_ul"));
  CHECK(departures_of(world).empty());
}

TEST_CASE("Steps out of order are refused by the desk and listed by the fold") {
  JobWorld world("fenmist-rtu");
  CHECK(release_job(world.context(), "J1", chicago).error().code == ErrorCode::wrong_state);
  CHECK(Shop::refused(close_job(world.context(), "J1", chicago)).code == ErrorCode::wrong_state);
  CHECK(Shop::refused(end_fog(world.context(), "J1", {})).code == ErrorCode::wrong_state);
  CHECK(Shop::refused(record_return(world.context(), "J1", "main", "hall", 1'000)).code ==
        ErrorCode::wrong_state);
  world.shop.write("job-released", {{"job", "J1"}, {"ground", "time"}});
  CHECK(world.state() == JobState::planned);
  CHECK(departures_of(world) == std::vector<std::string>{"out-of-order"});
}

TEST_CASE("A release that another program wrote too early, by whom it may not, is listed") {
  JobWorld world = holding("fenmist-rtu");
  world.by("ash");
  world.shop.done(enrol_person(world.context(), {"elm", {Role::owner}, {}}));
  world.by("elm");
  world.shop.write("job-released", {{"job", "J1"},
                                    {"ground", "time"},
                                    {"clock", {{"boot", "boot-1"}, {"uptime_ms", world.clock.uptime_ms}}}});
  CHECK(departures_of(world) ==
        std::vector<std::string>{"hold-not-kept", "released-without-item", "released-by-wrong-role"});
}

TEST_CASE("A job that was done without the tool is recorded, with a departure for each rule it broke") {
  JobWorld world("fenmist-rtu");
  world.wait(12 * hour_ms);
  LateRecord late = world.done_before(5 * hour_ms);
  late.released_ms = late.ended_ms + 20 * minute;
  late.returns = {{"main", "hall", 63'000}, {"main", "den", 63'000}};
  late.used_ul = 384'470;
  late.met = {{"label-read", "yes"}, {"everyone-out", "3"}, {"lot-noted", "C1"}};
  world.shop.done(record_job(world.context(), "J1", late, chicago));
  CHECK(world.state() == JobState::released);
  const auto rules = departures_of(world);
  CHECK(std::count(rules.begin(), rules.end(), "done-without-tool") == 1);
  CHECK(std::count(rules.begin(), rules.end(), "hold-not-kept") == 1);
  const auto open = std::count(rules.begin(), rules.end(), "start-without-item") +
                    std::count(rules.begin(), rules.end(), "credential-lapsed");
  CHECK(open == static_cast<std::ptrdiff_t>(world.items_before_start().size() - late.met.size()));
  late.released_ms = late.started_ms;
  CHECK(Shop::refused(record_job(world.context(), "J1", late, chicago)).code == ErrorCode::out_of_range);
}

TEST_CASE("The returns of a job recorded afterwards are found by their names, and counted") {
  const auto recorded = [](const JobWorld& world, std::vector<LateRecord::Return> returns) {
    LateRecord late = world.done_before(5 * hour_ms);
    late.returns = std::move(returns);
    return record_job(world.context(), "J1", late, chicago);
  };
  for (const char* hall : {"hall", "main: hall"}) {
    JobWorld world("fenmist-rtu");
    world.wait(12 * hour_ms);
    world.shop.done(recorded(world, {{"", hall, 63'000}, {"", "den", 63'000}}));
    const auto rules = departures_of(world);
    CHECK(std::count(rules.begin(), rules.end(), "time-off-band") == 0);
    CHECK(std::count(rules.begin(), rules.end(), "total-off-band") == 0);
    CHECK(world.job().at("returns").at(0).at("system") == "main");
    CHECK(world.job().at("returns").at(0).at("return") == "hall");
  }
  JobWorld world("fenmist-rtu");
  world.wait(12 * hour_ms);
  const Error refused = Shop::refused(recorded(world, {{"", "attic", 63'000}}));
  CHECK(refused.code == ErrorCode::not_found);
  CHECK(refused.where == "--return");
}

TEST_CASE("An entry that left out the system of a return is read as what its name tells") {
  JobWorld world("fenmist-rtu");
  world.wait(12 * hour_ms);
  LateRecord late = world.done_before(5 * hour_ms);
  late.returns = {{"main", "hall", 63'000}, {"main", "den", 63'000}};
  auto drafts = record_job(world.context(), "J1", late, chicago);
  REQUIRE(drafts);
  for (json& one : drafts->front().body.at("returns")) one["system"] = "";
  world.shop.done(*drafts);
  const auto rules = departures_of(world);
  CHECK(std::count(rules.begin(), rules.end(), "time-off-band") == 0);
}

TEST_CASE(
    "A job recorded afterwards without a volume draws what the fog took by its seconds, if they are told") {
  for (const bool told : {true, false}) {
    JobWorld world("fenmist-rtu");
    world.wait(12 * hour_ms);
    LateRecord late = world.done_before(5 * hour_ms);
    late.released_ms = late.ended_ms + hour_ms;
    if (told) late.returns = {{"main", "hall", 63'000}};
    late.met = {{"lot-noted", "C1"}};
    world.shop.done(record_job(world.context(), "J1", late, chicago));
    world.meet_all(Stage::during_fogging);
    world.meet_all(Stage::before_close);
    const std::int64_t flow = world.job().at("plan").at("flow_ul_min");
    const std::int64_t used = told ? (flow * 63'000 + 59'999) / 60'000 : 0;
    const std::int64_t before = world.shop.remaining("C1");
    world.shop.done(close_job(world.context(), "J1", chicago));
    CHECK(before - world.shop.remaining("C1") == used);
    CHECK(world.job().at("used_ul") == used);
    const auto rules = departures_of(world);
    CHECK(std::count(rules.begin(), rules.end(), "draw-off-use") == 0);
  }
}

TEST_CASE("A reading in ppm is taken at 25 C, as limits are, and rounded up") {
  // NIOSH Pocket Guide: chlorine dioxide, 0.1 ppm = 0.3 mg/m3 (67.45 g/mol / 24.45 L/mol = 2.7587).
  CHECK(read_reading(chlorine_dioxide, "0.1 ppm") == 276);
  CHECK(read_reading(chlorine_dioxide, "0.02 mg/m3") == 20);
  CHECK(read_reading(chlorine_dioxide, "0.0201 mg/m3") == 21);
  CHECK(read_reading("1-1-1", "1 ppm").error().code == ErrorCode::not_found);
  CHECK(read_reading(chlorine_dioxide, "low").error().code == ErrorCode::not_understood);
}

TEST_CASE("A hold begins in a job whose document an earlier version made, without the numbers of its entries") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.start();
  world.shop.done(record_return(world.context(), "J1", "main", "hall", 1'000));
  world.shop.done(record_return(world.context(), "J1", "main", "den", 1'000));
  MapDocuments earlier = world.shop.book();
  json job = *earlier.get("job", "J1");
  job.erase("planned_seq");
  job.erase("last_seq");
  job.at("fog_started").erase("seq");
  for (json& one : job.at("returns")) one.erase("seq");
  earlier.put("job", "J1", job, true);
  world.fog_off();
  fold(world.shop.entries().back(), earlier);
  CHECK(earlier.get("job", "J1")->at("state") == "holding");
  std::vector<std::string> rules;
  earlier.each("departure", false,
               [&](const std::string&, const json& one) { rules.push_back(one.at("rule")); });
  CHECK(rules == departures_of(world));
  CHECK_FALSE(rules.empty());
}

TEST_CASE("the end of a hold is told to the next whole minute, never to the one before it") {
  CHECK(up_to_minute(120'000) == 120'000);
  CHECK(up_to_minute(120'001) == 180'000);
  CHECK(up_to_minute(179'999) == 180'000);
}

namespace {

std::int64_t most_ul(const JobWorld& world) { return world.job().at("plan").at("volume_ul").at("high"); }

/// Fog for so many times the planned seconds, by time or by a measure of the tank.
JobWorld fogged_times(std::int64_t times, bool by_time) {
  JobWorld world("brackwater-20");
  world.meet_before_start();
  world.start();
  for (const char* name : {"hall", "den"})
    world.shop.done(record_return(world.context(), "J1", "main", name, by_time ? times * 63'000 : 63'000));
  FogOff off;
  if (!by_time) off.left_ul = 591'470 - times * 280'000;
  world.meet_all(Stage::during_fogging);
  world.shop.done(end_fog(world.context(), "J1", off));
  return world;
}

}  // namespace

TEST_CASE("Fog inside the band leaves the hold as it was planned") {
  const JobWorld world = fogged_times(1, true);
  CHECK(world.job().at("used_ul").get<std::int64_t>() <= most_ul(world));
  const auto rules = departures_of(world);
  CHECK(std::count(rules.begin(), rules.end(), "over-fogged") == 0);
}

TEST_CASE("Where a job cannot be planned again, more fog stretches its hold and asks for readings") {
  const JobWorld planned = fogged_times(1, true);
  for (const bool by_time : {true, false}) {
    JobWorld world = fogged_times(by_time ? 10 : 2, by_time);
    const double times = world.job().at("used_ul").get<double>() / static_cast<double>(most_ul(planned));
    CHECK(times > 1);
    CHECK(static_cast<double>(floor_ms(world)) >= times * static_cast<double>(floor_ms(planned)));
    CHECK(static_cast<double>(total_ms(world)) >= times * static_cast<double>(total_ms(planned)));
    CHECK(departures_of(world).back() == "over-fogged");
    world.wait(total_ms(world));
    CHECK(world.release());
    read(world, 0);
    world.wait(15 * minute);
    read(world, 0);
    CHECK_FALSE(world.release());
  }
}

TEST_CASE(
    "Two devices that tell of one job: what is recorded afterwards neither ends its hold nor dates it "
    "earlier") {
  JobWorld world = holding("fenmist-rtu");
  const json before = world.job();
  world.shop.write("job-recorded", {{"job", "J1"},
                                    {"why_late", "the other phone was dead"},
                                    {"started_ms", world.shop.now() - 10 * hour_ms},
                                    {"ended_ms", world.shop.now() - 9 * hour_ms},
                                    {"released_ms", world.shop.now() - 5 * hour_ms},
                                    {"day", "2026-03-02"},
                                    {"day_began_ms", world.shop.now() - 12 * hour_ms},
                                    {"returns", json::array()},
                                    {"met", json::object()}});
  CHECK(world.state() == JobState::holding);
  CHECK(world.job().at("fog_ended") == before.at("fog_ended"));
  CHECK_FALSE(world.job().contains("released"));
  const auto rules = departures_of(world);
  CHECK(std::count(rules.begin(), rules.end(), "out-of-order") == 1);
  CHECK(release_job(world.context(), "J1", chicago)->refusal);
}

TEST_CASE("Fog that is recorded afterwards, later than a release, is held again") {
  JobWorld world = holding("fenmist-rtu");
  world.wait(total_ms(world));
  REQUIRE_FALSE(world.release());
  world.wait(hour_ms);
  const std::int64_t ended = world.shop.now() - minute;
  world.shop.write("job-recorded", {{"job", "J1"},
                                    {"why_late", "fogged once more"},
                                    {"started_ms", ended - minute},
                                    {"ended_ms", ended},
                                    {"returns", json::array()},
                                    {"met", json::object()}});
  CHECK(world.state() == JobState::holding);
  CHECK(world.job().at("fog_ended").at("ms") == ended);
  CHECK_FALSE(world.job().contains("released"));
}

TEST_CASE("An end of the fog that a slow clock dated too early counts from when the office says") {
  JobWorld world = holding("fenmist-rtu");
  const std::int64_t dated = world.job().at("fog_ended").at("ms");
  const auto checked = [&](std::int64_t at_ms) {
    world.shop.write("clock-checked", {{"job", "J1"}, {"behind_ms", 4 * hour_ms}, {"fog_ended_ms", at_ms}});
  };
  checked(dated - 1);  // never earlier
  CHECK(departures_of(world).empty());
  checked(dated + 4 * hour_ms);
  CHECK(departures_of(world) == std::vector<std::string>{"clock-set-in-hold"});
  // The slow phone itself has counted by its own clock all the time.
  JobWorld phone = world;
  phone.wait(total_ms(phone));
  CHECK_FALSE(phone.release());
  CHECK(departures_of(phone) == std::vector<std::string>{"clock-set-in-hold"});
  // Another clock counts from when it really was.
  world.clock.boot = "the office";
  world.wait(total_ms(world) + 4 * hour_ms - minute);
  CHECK(world.release());
  world.wait(minute);
  CHECK_FALSE(world.release());
  checked(world.shop.now());  // what is released stays so
  CHECK(world.state() == JobState::released);
}

TEST_CASE(
    "A return that was still timed when somebody gave the job up is recorded, drawn, and moves the hold") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.start();
  world.shop.done(stop_job(world.context(), "J1", "the office called"));
  const std::int64_t before = world.shop.remaining("C1");
  world.wait(minute);
  world.shop.done(record_return(world.context(), "J1", "main", "hall", 40'000));
  const std::int64_t flow = world.job().at("plan").at("flow_ul_min");
  const std::int64_t used = (flow * 40'000 + 59'999) / 60'000;
  CHECK(world.state() == JobState::stopped);
  CHECK(world.job().at("used_ul") == used);
  CHECK(before - world.shop.remaining("C1") == used);
  CHECK(world.job().at("fog_ended").at("ms") == world.shop.now());
  world.wait(minute);
  world.fog_off(400'000);
  CHECK(world.state() == JobState::stopped);
  CHECK(before - world.shop.remaining("C1") == 191'470);
  CHECK(world.job().at("fog_ended").at("ms") == world.shop.now());
  const auto rules = departures_of(world);
  CHECK(std::count(rules.begin(), rules.end(), "out-of-order") == 0);
}

TEST_CASE("A job that was given up after too much fog tells what was too much") {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.start();
  world.shop.done(record_return(world.context(), "J1", "main", "hall", 1'200'000));
  world.shop.done(stop_job(world.context(), "J1", "the hose burst"));
  CHECK(departures_of(world) == std::vector<std::string>{"time-off-band", "total-off-band", "over-fogged"});
}

TEST_CASE("A reading of what the plan has no limit of is refused, with what there are limits of") {
  JobWorld world = holding("brackwater-20");
  const Error refused =
      Shop::refused(take_reading(world.context(), "J1", {"10049-04-5", 10, "0.01 mg/m3", true, "meter 3"}));
  CHECK(refused.code == ErrorCode::not_found);
  CHECK(refused.hint.find("10049-04-4 (") != std::string::npos);
}

TEST_CASE("A high reading outlives a later one with the fan off, and a clock that was set back") {
  for (const bool clock_set : {false, true}) {
    JobWorld world = holding("brackwater-20");
    world.wait(total_ms(world));
    read(world, 10);
    world.wait(minute);
    if (clock_set) world.set_clock(-hour_ms);
    read(world, 5'000);
    world.wait(minute);
    if (!clock_set) read(world, 0, false);
    world.wait(3 * hour_ms);
    CHECK(world.release());
    read(world, 10);
    CHECK_FALSE(world.release());
  }
}

TEST_CASE("A batch that lasted to the end of the fog is not over age when it is drawn at the end of the hold") {
  JobWorld world = holding("brackwater-20");
  world.wait(total_ms(world) + 10 * hour_ms);
  REQUIRE_FALSE(world.release());
  world.meet_all(Stage::before_close);
  world.shop.done(close_job(world.context(), "J1", chicago));
  const auto rules = departures_of(world);
  CHECK(std::count(rules.begin(), rules.end(), "batch-over-age") == 0);
  CHECK(std::count(rules.begin(), rules.end(), "expired-used") == 0);
}

TEST_CASE("After the fog only what somebody's entering ends can lapse, and nothing in a job that is over") {
  JobWorld world = holding("fenmist-rtu");
  const auto lapse = [&](const char* item) {
    return lapse_requirement(world.context(), "J1", item, "as seen");
  };
  CHECK(lapse("everyone-out"));
  CHECK(Shop::refused(lapse("lot-noted")).code == ErrorCode::wrong_state);
  world.wait(total_ms(world));
  REQUIRE_FALSE(world.release());
  CHECK(Shop::refused(lapse("everyone-out")).code == ErrorCode::wrong_state);
  CHECK(Shop::refused(lapse_all(world.context(), "J1", Lapse::when_someone_enters, "the owner is home")).code ==
        ErrorCode::wrong_state);
  world.meet_all(Stage::before_close);
  world.shop.done(close_job(world.context(), "J1", chicago));
  CHECK(Shop::refused(lapse("filter-in")).code == ErrorCode::wrong_state);
}

TEST_CASE(
    "A return that was still timed when another device told the end of the fog moves the hold, and is listed") {
  JobWorld world = holding("fenmist-rtu");
  world.wait(10 * minute);
  world.shop.done(record_return(world.context(), "J1", "main", "hall", 1'000));
  CHECK(world.state() == JobState::holding);
  CHECK(world.job().at("fog_ended").at("ms") == world.shop.now());
  CHECK(departures_of(world).front() == "out-of-order");
  world.wait(total_ms(world) - minute);
  CHECK(world.release());
  world.wait(minute);
  CHECK_FALSE(world.release());
  CHECK(Shop::refused(record_return(world.context(), "J1", "main", "hall", 1'000)).code ==
        ErrorCode::wrong_state);
}

TEST_CASE("A return that was recorded late does not open the hold to a clock that is set") {
  JobWorld world = holding("fenmist-rtu");
  world.shop.done(record_return(world.context(), "J1", "main", "hall", 1'000));
  world.wait(minute);
  world.set_clock(total_ms(world));
  CHECK(world.release());
}

TEST_CASE("A hold that is stretched is stretched from the plan, however often more is told") {
  JobWorld world = fogged_times(10, true);
  const std::int64_t once = floor_ms(world);
  for (int i = 0; i < 3; ++i) world.shop.done(record_return(world.context(), "J1", "main", "hall", 1'000));
  CHECK(floor_ms(world) >= once);
  CHECK(floor_ms(world) < once + once / 50);
}

TEST_CASE("What is recorded afterwards is not later than the end that the office knows of a slow phone's fog") {
  JobWorld world = holding("fenmist-rtu");
  const std::int64_t dated = world.job().at("fog_ended").at("ms");
  world.shop.write("clock-checked",
                   {{"job", "J1"}, {"behind_ms", 4 * hour_ms}, {"fog_ended_ms", dated + 4 * hour_ms}});
  const json before = world.job().at("fog_ended");
  world.wait(5 * hour_ms);
  world.shop.write("job-recorded", {{"job", "J1"},
                                    {"why_late", "told twice"},
                                    {"started_ms", dated},
                                    {"ended_ms", dated + 30 * minute},
                                    {"returns", json::array()},
                                    {"met", json::object()}});
  CHECK(world.job().at("fog_ended") == before);
}

TEST_CASE(
    "A return of another phone that was over before the fog-off leaves the hold to the clock that dated it") {
  JobWorld world = holding("fenmist-rtu");
  const json before = world.job().at("fog_ended");
  json body = {{"job", "J1"}, {"system", "main"}, {"return", "hall"}, {"planned_s", 63}, {"actual_ms", 1'000}};
  body["clock"] = {{"boot", "another phone"}, {"uptime_ms", 5'000}};
  world.shop.write("return-fogged", body);  // taken in at the very time of the fog-off
  CHECK(world.job().at("fog_ended") == before);
  world.wait(minute);
  world.set_clock(total_ms(world));
  CHECK(world.release());
}
