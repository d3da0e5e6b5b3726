// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <limits>

#include "gate/world.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {
AirResult clears_after(double model_minutes, double haze_minutes = 0) {
  AirResult air;
  air.model_time = minutes(model_minutes);
  air.haze.residue_time = minutes(haze_minutes);
  return air;
}
}  // namespace

TEST_CASE("the longest of label, policy, model and haze governs") {
  Label label = high_strength();
  label.empty_time = minutes(90);
  CHECK(hold_for(label, clears_after(0), {}).governs == HoldGround::label);
  CHECK(hold_for(label, clears_after(91), {}).governs == HoldGround::model);
  CHECK(hold_for(label, clears_after(91, 92), {}).governs == HoldGround::haze);
  label.empty_time = minutes(10);
  CHECK(hold_for(label, clears_after(0), {}).governs == HoldGround::policy);
}

TEST_CASE("of equal holds the first of label, policy, model, haze governs") {
  Label label = high_strength();
  label.empty_time = minutes(60);
  CHECK(hold_for(label, clears_after(60, 60), {}).governs == HoldGround::label);
  label.empty_time = minutes(59);
  CHECK(hold_for(label, clears_after(60, 60), {}).governs == HoldGround::policy);
  CHECK(hold_for(label, clears_after(61, 61), {}).governs == HoldGround::model);
}

TEST_CASE("each part of a hold is rounded up to the whole minute") {
  Label label = ready_to_use();
  label.empty_time = HoldTime(30 * 60 + 1, unit::second);
  const Hold hold = hold_for(label, clears_after(44.001, 12.5), {});
  CHECK(hold.label_minutes == 31);
  CHECK(hold.model_minutes == 45);
  CHECK(hold.haze_minutes == 13);
  CHECK(hold.total_minutes == 45);
  CHECK(hold.floor_minutes == 31);
}

TEST_CASE("policy holds an hour for a high-strength product; an owner may raise it, not lower it") {
  // An hour at least: common practice, no source.
  Label label = high_strength();
  label.empty_time.reset();
  CHECK(hold_for(label, clears_after(0), {}).policy_minutes == 60);
  CHECK(hold_for(label, clears_after(0), {.least_hold_high_strength = minutes(90)}).policy_minutes == 90);
  CHECK(hold_for(label, clears_after(0), {.least_hold_high_strength = minutes(5)}).policy_minutes == 60);
  CHECK(hold_for(ready_to_use(), clears_after(0), {}).policy_minutes == 0);
  CHECK(hold_for(ready_to_use(), clears_after(0), {.least_hold_other = minutes(20)}).policy_minutes == 20);
}

TEST_CASE("a label that is silent never governs") {
  Label label = ready_to_use();
  label.empty_time.reset();
  const Hold hold = hold_for(label, clears_after(0), {});
  CHECK_FALSE(hold.label_minutes);
  CHECK(hold.governs == HoldGround::policy);
  CHECK(hold.total_minutes == 0);
}

TEST_CASE("air that never clears leaves the longest known hold, and only readings release") {
  for (const double time : {std::numeric_limits<double>::infinity(), std::nan(""), 1e12}) {
    const Hold hold = hold_for(ready_to_use(), clears_after(time), {});
    CHECK(hold.model_never_clears);
    CHECK(hold.readings_needed);
    CHECK_FALSE(hold.model_minutes);
    CHECK(hold.total_minutes == 30);
  }
}

TEST_CASE("what cannot be estimated has no model time, and a high-strength product then needs readings") {
  AirResult air = clears_after(0);
  air.estimable = false;
  const Hold other = hold_for(ready_to_use(), air, {});
  CHECK_FALSE(other.model_minutes);
  CHECK_FALSE(other.readings_needed);
  CHECK(other.total_minutes == 30);
  CHECK(hold_for(high_strength(), air, {}).readings_needed);
}

TEST_CASE("the part of the air that could be estimated still lengthens the hold") {
  AirResult air = clears_after(200);
  air.estimable = false;
  const Hold hold = hold_for(ready_to_use(), air, {});
  CHECK(hold.model_minutes == 200);
  CHECK(hold.total_minutes == 200);
}

TEST_CASE("haze that never settles counts as endless, not as nothing") {
  const Hold hold = hold_for(ready_to_use(), clears_after(0, std::numeric_limits<double>::infinity()), {});
  CHECK(hold.haze_minutes > 365 * 24 * 60);
  CHECK(hold.floor_minutes == hold.haze_minutes);
}

TEST_CASE("hold grounds are named as in the plan") {
  CHECK(hold_ground_name(HoldGround::label) == "label");
  CHECK(hold_ground_name(HoldGround::policy) == "policy");
  CHECK(hold_ground_name(HoldGround::model) == "model");
  CHECK(hold_ground_name(HoldGround::haze) == "haze");
}
