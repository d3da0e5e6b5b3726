// SPDX-License-Identifier: Apache-2.0
#include <rapidcheck.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <limits>

#include "gate/world.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

double number(double most) { return *rc::gen::inRange(0, 1'000'001) * most / 1e6; }

double any_time() {
  return *rc::gen::element(number(500), number(50), std::numeric_limits<double>::infinity(), 0.0);
}

Label any_label() {
  Label label = *rc::gen::element(ready_to_use(), dilutable(), high_strength());
  if (*rc::gen::arbitrary<bool>()) label.empty_time = minutes(number(300));
  if (*rc::gen::arbitrary<bool>()) label.applying_gear.cartridges.clear();
  return label;
}

AirResult any_air() {
  std::vector<ActiveAir> actives;
  const int count = *rc::gen::inRange(0, 4);
  for (int i = 0; i < count; ++i) {
    const auto all = shipped_substances();
    const auto& substance = all[*rc::gen::inRange<std::size_t>(0, all.size())];
    actives.push_back(vapour(substance.cas.data(), *rc::gen::element(number(2), number(60), number(20'000))));
    actives.back().estimable = *rc::gen::inRange(0, 5) != 0;
  }
  AirResult air = air_of(std::move(actives));
  air.above_immediately_dangerous = *rc::gen::inRange(0, 5) == 0;
  air.model_time = minutes(any_time());
  air.haze.residue_time = minutes(number(100));
  return air;
}

Facepiece any_facepiece() { return static_cast<Facepiece>(*rc::gen::inRange(0, 7)); }

const std::vector<ReleaseLimit> limits{{chlorine_dioxide, mg(1)}, {hydrogen_peroxide, mg(2)}};

std::vector<Reading> any_readings() {
  std::vector<Reading> readings;
  const int count = *rc::gen::inRange(0, 9);
  for (int i = 0; i < count; ++i)
    readings.push_back({*rc::gen::inRange(-10, 60) * 300'000, *rc::gen::element(limits[0].cas, limits[1].cas),
                        mg(*rc::gen::inRange(0, 5) * 0.3), *rc::gen::inRange(0, 5) != 0});
  return readings;
}

/// Readings that would release the building, at one value from start to end.
std::vector<Reading> clear_air(std::int64_t end_ms) {
  std::vector<Reading> readings;
  for (std::int64_t at = 0; at <= end_ms; at += 300'000)
    for (const ReleaseLimit& limit : limits) readings.push_back({at, limit.cas, mg(0.1), true});
  return readings;
}

Hold any_hold() {
  Hold hold;
  hold.floor_minutes = *rc::gen::inRange(0, 100);
  if (*rc::gen::arbitrary<bool>()) hold.model_minutes = *rc::gen::inRange(0, 250);
  hold.readings_needed = *rc::gen::inRange(0, 3) == 0;
  return hold;
}

}  // namespace

TEST_CASE("properties of the hold") {
  CHECK(rc::check("no air and no policy shortens a label's hold", [] {
    const Label label = any_label();
    const Policy policy{minutes(number(200)), minutes(number(200))};
    const Hold hold = hold_for(label, any_air(), policy);
    if (label.empty_time) {
      RC_ASSERT(static_cast<double>(hold.total_minutes) >= label.empty_time->value_in(unit::minute) - 1e-6);
      RC_ASSERT(static_cast<double>(hold.floor_minutes) >= label.empty_time->value_in(unit::minute) - 1e-6);
    }
  }));
  CHECK(rc::check("the total covers each known part, and the floor is at most the total", [] {
    const AirResult air = any_air();
    const Hold hold = hold_for(any_label(), air, {});
    RC_ASSERT(hold.total_minutes >= hold.label_minutes.value_or(0));
    RC_ASSERT(hold.total_minutes >= hold.policy_minutes);
    RC_ASSERT(hold.total_minutes >= hold.haze_minutes);
    RC_ASSERT(hold.floor_minutes <= hold.total_minutes);
    if (air.model_time.is_finite())
      RC_ASSERT(static_cast<double>(hold.total_minutes) >= air.model_time.value_in(unit::minute) - 1e-6);
    else
      RC_ASSERT(hold.readings_needed);
  }));
}

TEST_CASE("properties of the respirator") {
  CHECK(rc::check("a stricter label never yields a lesser respirator", [] {
    Label label = any_label();
    const AirResult air = any_air();
    const auto [less, more] = std::minmax({any_facepiece(), any_facepiece()});
    label.applying_gear.respirator = less;
    const auto lesser = respirator_need(label, air);
    label.applying_gear.respirator = more;
    const auto stricter = respirator_need(label, air);
    RC_ASSERT(stricter.facepiece >= lesser.facepiece);
    RC_ASSERT(stricter.assigned_protection_factor >= lesser.assigned_protection_factor);
    RC_ASSERT(stricter.facepiece >= more);
    RC_ASSERT(stricter.do_not_enter == lesser.do_not_enter);
  }));
  CHECK(rc::check("a higher ratio never has a lower factor, nor lets anyone in again", [] {
    const Label label = any_label();
    AirResult air = any_air();
    const auto before = respirator_need(label, air);
    for (ActiveAir& active : air.actives) active.hazard_ratio *= 1 + number(3);
    const auto after = respirator_need(label, air);
    RC_ASSERT(after.assigned_protection_factor >= before.assigned_protection_factor);
    RC_ASSERT(after.facepiece >= before.facepiece);
    RC_ASSERT(after.do_not_enter >= before.do_not_enter);
  }));
  CHECK(rc::check("the factor covers every ratio, unless nobody enters", [] {
    const AirResult air = any_air();
    const auto need = respirator_need(any_label(), air);
    for (const ActiveAir& active : air.actives)
      RC_ASSERT(need.do_not_enter || active.hazard_ratio <= std::max(1, need.assigned_protection_factor));
  }));
  CHECK(rc::check("cartridges go with air-purifying respirators and always hold a particulate filter", [] {
    const Label label = any_label();
    const auto need = respirator_need(label, any_air());
    const bool purifying = need.facepiece >= Facepiece::half_mask && need.facepiece <= Facepiece::powered;
    RC_ASSERT(need.facepiece == Facepiece::filtering || purifying != need.cartridges.empty());
    if (purifying) RC_ASSERT(std::ranges::count(need.cartridges, "P100") == 1);
  }));
}

TEST_CASE("properties of the release") {
  CHECK(rc::check("no readings release before the floor", [] {
    const Hold hold = any_hold();
    const std::int64_t now = *rc::gen::inRange(-100'000, 7'200'000);
    const auto readings =
        *rc::gen::arbitrary<bool>() ? any_readings() : clear_air(std::max<std::int64_t>(0, now));
    if (release_ready(hold, limits, now, readings)) RC_ASSERT(now >= hold.floor_minutes * 60'000);
  }));
  CHECK(rc::check("clear readings release 15 min after the floor at the latest", [] {
    const Hold hold = any_hold();
    const std::int64_t now = (hold.floor_minutes + 20) * 60'000;
    RC_ASSERT(release_ready(hold, limits, now, clear_air(now)).has_value());
  }));
  CHECK(rc::check("a longer hold never releases earlier", [] {
    const Hold hold = any_hold();
    Hold longer = hold;
    longer.floor_minutes += *rc::gen::inRange(0, 30);
    if (longer.model_minutes) *longer.model_minutes += *rc::gen::inRange(0, 100);
    longer.readings_needed = hold.readings_needed || *rc::gen::arbitrary<bool>();
    const std::int64_t now = *rc::gen::inRange(0, 18'000'000);
    const auto readings = any_readings();
    if (release_ready(longer, limits, now, readings))
      RC_ASSERT(release_ready(hold, limits, now, readings).has_value());
  }));
  CHECK(rc::check("a lower limit never releases earlier", [] {
    auto lower = limits;
    for (ReleaseLimit& limit : lower) limit.value = limit.value * number(1);
    const Hold hold = any_hold();
    const std::int64_t now = *rc::gen::inRange(0, 18'000'000);
    const auto readings = any_readings();
    if (release_ready(hold, lower, now, readings))
      RC_ASSERT(release_ready(hold, limits, now, readings).has_value());
  }));
  CHECK(rc::check("time passing never takes a release back", [] {
    const Hold hold = any_hold();
    const std::int64_t now = *rc::gen::inRange(0, 18'000'000);
    const auto readings = any_readings();
    if (release_ready(hold, limits, now, readings))
      RC_ASSERT(release_ready(hold, limits, now + *rc::gen::inRange(0, 1'000'000), readings).has_value());
  }));
  CHECK(rc::check("one more reading above its limit refuses", [] {
    auto readings = any_readings();
    const std::int64_t now = 18'000'000;
    readings.push_back({now, limits[0].cas, mg(1.001 + number(5)), *rc::gen::arbitrary<bool>()});
    RC_ASSERT_FALSE(release_ready(any_hold(), limits, now, readings).has_value());
  }));
  CHECK(rc::check("the order in which readings are given does not matter", [] {
    const Hold hold = any_hold();
    auto readings = any_readings();
    const std::int64_t now = *rc::gen::inRange(0, 18'000'000);
    const bool first = release_ready(hold, limits, now, readings).has_value();
    std::ranges::reverse(readings);
    RC_ASSERT(first == release_ready(hold, limits, now, readings).has_value());
  }));
}
