// SPDX-License-Identifier: Apache-2.0
#include "desk/job_hold.hpp"
#include "fogwright/desk/plan_check.hpp"
#include "fogwright/desk/replan.hpp"

#include "rule_pairs.hpp"

using namespace desk_test;
using nlohmann::json;

namespace audit_test {
namespace {

constexpr std::int64_t minute = 60'000;

Book started(const std::function<void(JobWorld&)>& before, const std::function<void(JobWorld&)>& after = {}) {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  if (before) before(world);
  write_start(world);
  if (after) after(world);
  return world;
}

void open_item(JobWorld& world) {
  world.shop.done(lapse_requirement(world.context(), "J1", "filter-out", "put it back in"));
}
void meet_again(JobWorld& world) { world.met("filter-out", "yes"); }

void withdraw_fit_test(JobWorld& world) {
  const json person = world.shop.document("person", "rowan");
  for (const json& paper : person.at("credentials"))
    if (paper.at("what") == "fit-test") {
      world.by("ash");
      world.shop.done(withdraw_credential(world.context(), paper.at("entry"), "lost weight"));
      world.by("rowan");
      return;
    }
}

void change_label(JobWorld& world) {
  world.by("ash");
  world.shop.done(adopt_label(world.context(), {"fenmist-rtu", profile("fenmist-rtu") + "# second printing\n",
                                                "fenmist-rtu", std::string(64, '1')}));
  world.by("rowan");
}

Book fogged_with_another_drawn_for(const std::string& job) {
  JobWorld world("brackwater-20");
  world.meet_before_start();
  world.shop.receive("P1", "palelight-hp", litre, "2027-01-31");
  world.shop.draw("P1", 1'000, job);
  write_start(world);
  return world;
}

/// A job whose hold a phone planned so many minutes off what the office makes of it.
Book planned_on_a_phone(std::int64_t minutes_off) {
  JobWorld world("fenmist-rtu");
  json body = world.shop.entries().back().body;
  body["job"] = "J2";
  body["request"] = {{"members", {{"system", {{{"area", "2400 sq ft"}, {"returns", 2}}}}}}};
  auto request = read_recorded_request(body["request"]);
  REQUIRE(request);
  request->label = std::make_shared<const Label>(*read_label(profile("fenmist-rtu"), "label"));
  body["plan"] = plan_snapshot(*make_plan(*request));
  body["plan"]["hold_minutes"]["total"] =
      body["plan"]["hold_minutes"]["total"].get<std::int64_t>() + minutes_off;
  world.shop.write("job-planned", body);
  if (const auto checked = check_plan(world.shop.book(), body)) world.shop.write("plan-checked", *checked);
  return world;
}

std::int64_t last_ms_of_band(const json& one) {
  return (one.at("band_s").at(1).get<std::int64_t>() + 1) * 1'000 - 1;
}

/// Fogs both returns; `over_ms` beyond the last moment of a band of the first return, or of the whole system.
Book fogged(const char* which, std::int64_t over_ms) {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.start();
  const json system = world.job().at("plan").at("systems").at(0);
  const std::int64_t hall = last_ms_of_band(system.at("returns").at(0));
  const std::int64_t whole = last_ms_of_band(system);
  const bool of_return = std::string_view(which) == "return";
  world.shop.done(record_return(world.context(), "J1", "main", "hall", of_return ? hall + over_ms : whole / 2));
  if (!of_return)
    world.shop.done(record_return(world.context(), "J1", "main", "den", whole - whole / 2 + over_ms));
  world.fog_off();
  return world;
}

/// Uses a fifth more than planned, and so much on top.
Book used_over_a_fifth(std::int64_t more_ul) {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.start();
  world.fog_all();
  const std::int64_t target = world.job().at("plan").at("volume_ul").at("target");
  world.fog_off(591'470 - target - target / 5 - more_ul);  // 20 fl oz were in the tank
  return world;
}

/// Uses the most that the plan reckons with, the last second of each band as well, and so much on top.
Book used_over_the_most(std::int64_t more_ul) {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  world.start();
  world.fog_all();
  const json plan = world.job().at("plan");
  const std::int64_t flow = plan.at("flow_ul_min"), most = plan.at("volume_ul").at("high");
  world.fog_off(591'470 - most - (flow * 2 + 59) / 60 - more_ul);
  return world;
}

Book lapsed_while_fogging(const std::string& item, bool before) {
  JobWorld world("fenmist-rtu");
  world.meet_before_start();
  const auto lapse = [&] {
    world.shop.done(lapse_requirement(world.context(), "J1", item, "the door opened"));
  };
  if (before) {
    lapse();
    world.met(item, world.answer_of(item));
  }
  world.start();
  if (!before) lapse();
  return world;
}

Book released_after(std::int64_t ms) {
  JobWorld world = holding();
  world.wait(ms);
  write_release(world);
  return world;
}

Book released_with_items(bool met) {
  JobWorld world = holding();
  world.wait(hold_ms(world));
  if (met) world.meet_what_is_open(Stage::before_release);
  write_bare_release(world);
  return world;
}

Book released_by_readings(std::int64_t apart_ms) {
  JobWorld world = holding("brackwater-20");
  world.wait(hold_ms(world, "floor"));
  for (int i = 0; i < 2; ++i) {
    if (i > 0) world.wait(apart_ms);
    world.shop.done(take_reading(world.context(), "J1", {"10049-04-4", 1, "1 ug/m3", true, "meter 3"}));
  }
  write_release(world, "readings");
  return world;
}

Book released_by(const std::string& handle) {
  JobWorld world = holding();
  world.wait(hold_ms(world));
  world.by("ash");
  world.shop.done(enrol_person(world.context(), {"elm", {Role::owner}, {}}));
  world.by(handle);
  write_release(world);
  return world;
}

/// Draws a twentieth more than the job used, and so much on top, before the job is closed.
Book drew_over_a_twentieth(std::int64_t more_ul) {
  JobWorld world = holding();
  const std::int64_t used = world.job().at("used_ul");
  world.shop.draw("C1", used + used / 20 + more_ul, "J1");
  release(world);
  close(world);
  return world;
}

Book clock_set_in_hold(std::int64_t by_ms) {
  JobWorld world = holding();
  world.wait(hold_ms(world));
  world.set_clock(by_ms);
  write_release(world);
  return world;
}

Book held(bool reboot) {
  JobWorld world = holding();
  if (reboot) world.reboot();
  world.wait(hold_ms(world));
  write_release(world);
  return world;
}

Book recorded_afterwards() {
  JobWorld world("fenmist-rtu");
  world.wait(3 * hour_ms);
  world.shop.done(record_job(world.context(), "J1", world.done_before(2 * hour_ms), chicago));
  return world;
}

Book released_without_fog() {
  JobWorld world("fenmist-rtu");
  write_release(world);
  return world;
}

}  // namespace

std::vector<RulePair> job_pairs() {
  return {
      {"start-without-item", [] { return started(open_item); },
       [] { return started([](JobWorld& world) { open_item(world), meet_again(world); }); }},
      {"plan-differs", [] { return planned_on_a_phone(-1); }, [] { return planned_on_a_phone(0); }},
      {"credential-lapsed", [] { return started(withdraw_fit_test); },
       [] { return started({}, withdraw_fit_test); }},
      {"label-changed", [] { return started(change_label); }, [] { return started({}, change_label); }},
      {"wrong-person", [] { return started([](JobWorld& world) { world.by("ash"); }); },
       [] { return started({}); }},
      {"incompatible-products", [] { return fogged_with_another_drawn_for("J1"); },
       [] { return fogged_with_another_drawn_for("J2"); }},
      {"time-off-band", [] { return fogged("return", 1); },
       [] {
         JobWorld world("fenmist-rtu");
         world.meet_before_start();
         world.start();
         const json system = world.job().at("plan").at("systems").at(0);
         for (std::size_t i = 0; i < 2; ++i)
           world.shop.done(record_return(world.context(), "J1", "main", i == 0 ? "hall" : "den",
                                         last_ms_of_band(system.at("returns").at(i))));
         world.fog_off();
         return Book(world);
       }},
      {"total-off-band", [] { return fogged("system", 1); }, [] { return fogged("system", 0); }},
      {"volume-off-plan", [] { return used_over_a_fifth(1); }, [] { return used_over_a_fifth(0); }},
      {"over-fogged", [] { return used_over_the_most(1); }, [] { return used_over_the_most(0); }},
      {"item-not-kept", [] { return lapsed_while_fogging("valve-before-motor", false); },
       [] { return lapsed_while_fogging("filter-out", true); }},
      {"entered-in-fog", [] { return lapsed_while_fogging("everyone-out", false); },
       [] { return lapsed_while_fogging("everyone-out", true); }},
      {"released-without-item", [] { return released_with_items(false); },
       [] { return released_with_items(true); }},
      {"hold-not-kept", [] { return released_after(hold_ms(holding()) - 1); },
       [] { return released_after(hold_ms(holding())); }},
      {"readings-not-kept", [] { return released_by_readings(15 * minute - 1); },
       [] { return released_by_readings(15 * minute); }},
      {"released-by-wrong-role", [] { return released_by("elm"); }, [] { return released_by("rowan"); }},
      {"draw-off-use", [] { return drew_over_a_twentieth(1); }, [] { return drew_over_a_twentieth(0); }},
      {"clock-set-in-hold", [] { return clock_set_in_hold(clock_slack_ms + 1); },
       [] { return clock_set_in_hold(clock_slack_ms); }},
      {"hold-by-calendar", [] { return held(true); }, [] { return held(false); }},
      {"out-of-order", released_without_fog, [] { return held(false); }},
      {"done-without-tool", recorded_afterwards, [] { return held(false); }},
  };
}

}  // namespace audit_test
