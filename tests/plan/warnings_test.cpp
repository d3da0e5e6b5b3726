// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "demo_labels.hpp"

using namespace fogwright;
using namespace fogwright::test;

namespace {

bool warns(const PlanRequest& request, WarningKind kind) {
  const Plan plan = make_plan(request).value();
  return std::any_of(plan.warnings.begin(), plan.warnings.end(),
                     [kind](const Warning& w) { return w.kind == kind; });
}

PlanRequest alcohol() {
  PlanRequest request = request_for(fenmist);
  Label label = *request.label;
  Active propanol;
  propanol.name = "2-propanol";
  propanol.cas = "67-63-0";
  propanol.mass_fraction = 0.6;
  propanol.release = Release::vapour;
  label.actives = {propanol};
  request.label = std::make_shared<const Label>(label);
  return request;
}

}  // namespace

TEST_CASE("each warning is raised by what it warns of, and by nothing less") {
  PlanRequest request = request_for(fenmist);
  CHECK(warns(request, WarningKind::flow_estimated));
  request.calibration = entered_flow(LiquidFlow{180, unit::millilitre_per_minute}).value();
  CHECK_FALSE(warns(request, WarningKind::flow_estimated));

  request.systems = {house(300, 3)};  // 15 s over three returns
  CHECK_FALSE(warns(request, WarningKind::short_share));
  request.systems = {house(300, 4)};
  CHECK(warns(request, WarningKind::short_share));

  request = request_for(fenmist);
  request.fogger.tank = LiquidVolume{0.5, unit::us_gallon};
  CHECK_FALSE(warns(request, WarningKind::tank_refills));
  request.fogger.tank = LiquidVolume{0.05, unit::us_gallon};
  CHECK(warns(request, WarningKind::tank_refills));

  request = request_for(palelight);
  CHECK(warns(request, WarningKind::supplied_air));
  CHECK_FALSE(warns(request, WarningKind::do_not_enter));
  request.calibration = entered_flow(LiquidFlow{2000, unit::millilitre_per_minute}).value();
  CHECK(warns(request, WarningKind::do_not_enter));

  request = request_for(brackwater);
  CHECK(warns(request, WarningKind::long_model_hold));
  request.zone.airing = AirChanges{5, unit::per_hour};
  CHECK_FALSE(warns(request, WarningKind::long_model_hold));
  request.zone.airing.reset();
  request.zone.closed = AirChanges{0, unit::per_hour};
  CHECK(warns(request, WarningKind::never_clears));
}

TEST_CASE("a flammable product asks for proved airflow, and stops where the duct would hold too much vapor") {
  PlanRequest request = alcohol();
  CHECK(warns(request, WarningKind::airflow_unproven));
  request.fan = AirFlow{1200, unit::cubic_foot_per_minute};
  CHECK_FALSE(warns(request, WarningKind::airflow_unproven));
  CHECK_FALSE(warns(request, WarningKind::flammable_duct));
  request.fan = AirFlow{400, unit::cubic_foot_per_minute};
  CHECK(warns(request, WarningKind::flammable_duct));
  request.fan = AirFlow{120, unit::cubic_foot_per_minute};
  CHECK(warns(request, WarningKind::flammable_stop));
}

TEST_CASE("every warning has a name of its own and words") {
  std::set<std::string_view> names;
  for (int i = 0; i <= static_cast<int>(WarningKind::rate_common_practice); ++i) {
    const auto kind = static_cast<WarningKind>(i);
    CHECK(names.insert(warning_name(kind)).second);
    CHECK(warning_words({kind, 3, "x"}, UnitSystem::us_customary).size() > 20);
  }
}
