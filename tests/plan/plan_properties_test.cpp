// SPDX-License-Identifier: Apache-2.0
#include <rapidcheck.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "demo_labels.hpp"

using namespace fogwright;
using namespace fogwright::test;

namespace {

const char* any_label() { return *rc::gen::element(fenmist, brackwater, palelight); }
double any_area() { return static_cast<double>(*rc::gen::inRange(300, 200'000)); }

PlanRequest any_request() {
  PlanRequest request = request_for(any_label(), any_area(), *rc::gen::inRange(1, 201));
  request.rate = {RateChoice::Point::exact, static_cast<double>(*rc::gen::inRange(46, 60))};
  if (request.label->rate) request.rate = {};
  request.calibration =
      entered_flow(LiquidFlow{static_cast<double>(*rc::gen::inRange(20, 2000)), unit::millilitre_per_minute})
          .value();
  request.zone.closed = AirChanges{*rc::gen::inRange(1, 300) / 100.0, unit::per_hour};
  if (*rc::gen::arbitrary<bool>())
    request.zone.airing = AirChanges{*rc::gen::inRange(1, 2000) / 100.0, unit::per_hour};
  return request;
}

std::int64_t hold(const PlanRequest& request) { return make_plan(request).value().hold.total_minutes; }

}  // namespace

TEST_CASE("the seconds at the returns add up to the system's and stay in its band") {
  CHECK(rc::check([] {
    const Plan plan = make_plan(any_request()).value();
    for (const SystemDose& system : plan.systems) {
      std::int64_t sum = 0;
      for (const ReturnDose& one : system.returns) {
        sum += one.seconds;
        RC_ASSERT(one.band.low <= one.seconds && one.seconds <= one.band.high);
      }
      RC_ASSERT(sum == system.target_seconds);
      RC_ASSERT(system.band.low <= sum && sum <= system.band.high);
    }
  }));
}

TEST_CASE("more area never means less time or less product") {
  CHECK(rc::check([] {
    PlanRequest request = any_request();
    const Plan small = make_plan(request).value();
    request.systems[0].area += FloorArea{static_cast<double>(*rc::gen::inRange(0, 5000)), unit::square_foot};
    request.limits.large = true;
    const Plan large = make_plan(request).value();
    RC_ASSERT(large.total_seconds >= small.total_seconds);
    RC_ASSERT(large.volume.high >= small.volume.high);
    RC_ASSERT(large.load.needed_microlitres >= small.load.needed_microlitres);
  }));
}

TEST_CASE("more ventilation never means a longer hold") {
  CHECK(rc::check([] {
    PlanRequest request = any_request();
    const std::int64_t before = hold(request);
    request.zone.closed = request.zone.closed * (1 + *rc::gen::inRange(0, 100) / 50.0);
    if (request.zone.airing)
      request.zone.airing = *request.zone.airing * (1 + *rc::gen::inRange(0, 100) / 50.0);
    RC_ASSERT(hold(request) <= before);
  }));
}

TEST_CASE("no input shortens what the label or the policy asks for") {
  CHECK(rc::check([] {
    const PlanRequest request = any_request();
    const Plan plan = make_plan(request).value();
    if (plan.label->empty_time) {
      RC_ASSERT(plan.hold.total_minutes >= plan.label->empty_time->ceil_in(unit::minute));
      RC_ASSERT(plan.hold.floor_minutes >= plan.label->empty_time->ceil_in(unit::minute));
    }
    if (plan.label->strength == StrengthClass::high_strength_oxidiser) RC_ASSERT(plan.hold.floor_minutes >= 60);
    if (plan.hold.model_minutes) RC_ASSERT(plan.hold.total_minutes >= *plan.hold.model_minutes);
  }));
}

TEST_CASE("the hostile case never clears before the planned one, nor the friendly one after it") {
  CHECK(rc::check([] {
    const Plan plan = make_plan(any_request()).value();
    RC_ASSERT(plan.cases.high.si() >= plan.air.model_time.si() * (1 - 1e-12));
    RC_ASSERT(plan.cases.low.si() <= plan.air.model_time.si() * (1 + 1e-12));
  }));
}

TEST_CASE("a plan in JSON holds no figure that is not finite") {
  CHECK(rc::check([] {
    const PlanRequest request = any_request();
    const auto answer = plan_json(request, make_plan(request).value());
    const nlohmann::json flat = answer.flatten();
    // Printed, a number that is not finite is null and would not be seen.
    for (const nlohmann::json& value : flat)
      if (value.is_number_float()) RC_ASSERT(std::isfinite(value.get<double>()));
    const std::string text = answer.dump();
    RC_ASSERT(text.find("nan") == std::string::npos);
    RC_ASSERT(text.find("inf\"") == std::string::npos);
  }));
}
