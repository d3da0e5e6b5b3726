// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <limits>

#include "gate/world.hpp"

using namespace fogwright;
using namespace fogwright::testing;

namespace {

constexpr std::int64_t minute_ms = 60'000;
const std::vector<ReleaseLimit> limits{{chlorine_dioxide, mg(0.03)}};

Hold hold_of(std::int64_t floor, std::int64_t model) {
  Hold hold;
  hold.label_minutes = hold.floor_minutes = floor;
  hold.model_minutes = model;
  hold.total_minutes = std::max(floor, model);
  return hold;
}

Reading at(double minute, double value, bool fan = true, std::string_view cas = chlorine_dioxide) {
  return {static_cast<std::int64_t>(minute * static_cast<double>(minute_ms)), cas, mg(value), fan};
}

bool ready(const Hold& hold, double minute, const std::vector<Reading>& readings = {},
           const std::vector<ReleaseLimit>& against = limits) {
  return release_ready(hold, against, static_cast<std::int64_t>(minute * static_cast<double>(minute_ms)),
                       readings)
      .has_value();
}

}  // namespace

TEST_CASE("without readings the floor and the modelled time must pass in full") {
  const Hold hold = hold_of(60, 100);
  CHECK_FALSE(ready(hold, 59));
  CHECK_FALSE(ready(hold, 99.99));
  CHECK(ready(hold, 100));
  CHECK_FALSE(ready(hold_of(60, 10), 59.99));
  CHECK(ready(hold_of(60, 10), 60));
  CHECK_FALSE(ready(hold_of(0, 0), -0.001));
}

TEST_CASE("two readings at the limit, 15 min apart, fan running, stand in for the model") {
  const Hold hold = hold_of(60, 1000);
  CHECK(ready(hold, 80, {at(60, 0.03), at(75, 0.03)}));
  CHECK(ready(hold, 80, {at(75, 0.02), at(60, 0.03)}));
  CHECK_FALSE(ready(hold, 80, {at(60, 0.03), at(74.99, 0.02)}));
  CHECK_FALSE(ready(hold, 80, {at(75, 0.02)}));
  CHECK_FALSE(ready(hold, 80));
}

TEST_CASE("readings never shorten the floor") {
  const Hold hold = hold_of(60, 1000);
  CHECK_FALSE(ready(hold, 59.99, {at(10, 0), at(25, 0), at(59, 0)}));
  // A reading before the floor has passed may be before the peak.
  CHECK_FALSE(ready(hold, 80, {at(59.99, 0.01), at(75, 0.01)}));
}

TEST_CASE("a reading with the fan off shows nothing good, but can show bad") {
  const Hold hold = hold_of(60, 1000);
  CHECK_FALSE(ready(hold, 80, {at(60, 0.01, false), at(75, 0.01)}));
  CHECK_FALSE(ready(hold, 80, {at(60, 0.01), at(75, 0.01, false)}));
  CHECK(ready(hold, 80, {at(60, 0.01), at(70, 0.01, false), at(75, 0.01)}));
  CHECK_FALSE(ready(hold, 80, {at(60, 0.01), at(75, 0.01), at(76, 0.04, false)}));
}

TEST_CASE("the second reading may not be above the first, nor above one between") {
  const Hold hold = hold_of(60, 1000);
  CHECK_FALSE(ready(hold, 90, {at(60, 0.01), at(75, 0.011)}));
  CHECK_FALSE(ready(hold, 90, {at(60, 0.02), at(70, 0.01), at(75, 0.015)}));
  CHECK(ready(hold, 90, {at(60, 0.01), at(70, 0.02), at(75, 0.01)}));
  CHECK_FALSE(ready(hold, 90, {at(60, 0.01), at(70, 0.04), at(75, 0.01)}));
  CHECK(ready(hold, 90, {at(60, 0.04), at(70, 0.02), at(85, 0.01)}));
  CHECK_FALSE(ready(hold, 90, {at(60, 0.02), at(75, 0.01), at(75, 0.02), at(75, 0.025)}));
}

TEST_CASE("a last reading above the limit refuses even after the modelled time") {
  const Hold hold = hold_of(60, 100);
  CHECK_FALSE(ready(hold, 200, {at(150, 0.031)}));
  CHECK_FALSE(ready(hold, 200, {at(150, 0.031, false)}));
  CHECK_FALSE(ready(hold, 200, {at(150, std::nan(""))}));
  CHECK_FALSE(ready(hold, 200, {at(150, -0.01)}));
  CHECK(ready(hold, 200, {at(150, 0.031), at(160, 0.03)}));
}

TEST_CASE("air that never clears is released by readings only") {
  Hold hold = hold_of(60, 0);
  hold.model_minutes.reset();
  hold.model_never_clears = hold.readings_needed = true;
  CHECK_FALSE(ready(hold, 1e6));
  CHECK(ready(hold, 1e6, {at(100, 0.02), at(120, 0.02)}));
}

TEST_CASE("without a limit readings cannot release, nor be passed over") {
  Hold hold = hold_of(60, 0);
  hold.readings_needed = true;
  CHECK_FALSE(ready(hold, 100, {}, {}));
  CHECK_FALSE(ready(hold_of(60, 0), 100, {at(70, 0.01)}, {}));
  CHECK_FALSE(ready(hold_of(60, 0), 100, {at(70, 0.01, true, "7782-50-5")}));
}

TEST_CASE("a limit of zero is met by a reading of nothing") {
  Hold hold = hold_of(60, 0);
  hold.readings_needed = true;
  const std::vector<ReleaseLimit> unknown{{chlorine_dioxide, {}}};
  CHECK(ready(hold, 100, {at(60, 0), at(75, 0)}, unknown));
  CHECK_FALSE(ready(hold, 100, {at(60, 0), at(75, 1e-9)}, unknown));
}

TEST_CASE("every substance needs its own pair, and their sum stays at or below 1") {
  const std::vector<ReleaseLimit> two{{chlorine_dioxide, mg(0.03)}, {hydrogen_peroxide, mg(0.14)}};
  const Hold hold = hold_of(60, 1000);
  const auto peroxide = [](double minute, double value) { return at(minute, value, true, hydrogen_peroxide); };
  CHECK_FALSE(ready(hold, 90, {at(60, 0.01), at(75, 0.01)}, two));
  CHECK(ready(hold, 90, {at(60, 0.01), at(75, 0.01), peroxide(60, 0.05), peroxide(76, 0.05)}, two));
  // 0.02/0.03 + 0.07/0.14 = 1.17
  CHECK_FALSE(ready(hold, 90, {at(60, 0.02), at(75, 0.02), peroxide(60, 0.07), peroxide(76, 0.07)}, two));
}

TEST_CASE("a reading dated after now refuses") {
  CHECK_FALSE(ready(hold_of(60, 100), 200, {at(201, 0.01)}));
  CHECK_FALSE(ready(hold_of(60, 1000), 100, {at(70, 0.01), at(110, 0.01)}));
}

TEST_CASE("a hold whose parts contradict its floor is held to the longest part") {
  Hold hold = hold_of(60, 0);
  hold.floor_minutes = 0;
  CHECK_FALSE(ready(hold, 59));
  hold.label_minutes.reset();
  hold.haze_minutes = 45;
  CHECK_FALSE(ready(hold, 44));
}

TEST_CASE("a refused release says what is missing and when") {
  const auto message = [](const Hold& hold, std::int64_t minute, std::vector<Reading> readings) {
    const auto result = release_ready(hold, limits, minute * minute_ms, readings);
    REQUIRE_FALSE(result);
    CHECK(result.error().code == ErrorCode::hold_running);
    CHECK_FALSE(result.error().hint.empty());
    return result.error().message;
  };
  CHECK_THAT(message(hold_of(60, 0), 18, {}),
             Catch::Contains("42 min more") && Catch::Contains("60 min after"));
  CHECK_THAT(message(hold_of(60, 100), 70, {}), Catch::Contains("wait until 100 min"));
  CHECK_THAT(message(hold_of(60, 100), 170, {at(165, 0.05)}),
             Catch::Contains("0.05 mg/m3, above the limit of 0.03"));
}

TEST_CASE("release limits name what is in the air, the strictest where two actives give off the same") {
  Label label;
  label.actives.resize(2);
  label.actives[0].cas = "7758-19-2";
  label.actives[0].released_cas = "10049-04-4";
  label.actives[1].cas = "1-2-3";
  AirResult air = air_of({vapour(chlorine_dioxide, 1), vapour(chlorine_dioxide, 1), hidden_vapour()});
  air.actives[0].occupant = mg(0.03);
  air.actives[1].occupant = mg(0.01);
  air.actives[2].active = &label.actives[1];
  const auto found = release_limits(air);
  REQUIRE(found.size() == 2);
  CHECK(found[0].cas == chlorine_dioxide);
  CHECK(found[0].value == mg(0.01));
  CHECK(found[1].cas == "1-2-3");
  CHECK(found[1].value == mg(0));

  air.actives.resize(1);
  air.actives[0].substance = nullptr;
  air.actives[0].active = &label.actives[0];
  CHECK(release_limits(air)[0].cas == chlorine_dioxide);
}

TEST_CASE("a reading above the limit stands until one with the fan running answers it") {
  const Hold hold = hold_of(60, 100);
  CHECK_FALSE(ready(hold, 200, {at(150, 5)}));
  CHECK_FALSE(ready(hold, 200, {at(150, 5), at(151, 0.0001, false)}));
  CHECK_FALSE(ready(hold, 200, {at(150, 5), at(151, 0.0001), at(152, 5), at(153, 0, false)}));
  CHECK(ready(hold, 200, {at(150, 5), at(151, 0.0001, false), at(152, 0.01)}));
  CHECK(ready(hold, 200, {at(150, 0.01, false)}));
}

TEST_CASE("a clock that was set back does not put a high reading before a low one that was taken earlier") {
  const Hold hold = hold_of(60, 100);
  Reading low = at(150, 0.01);
  Reading high = at(140, 5);  // taken after it, by a clock that was set back
  low.order = 1;
  high.order = 2;
  CHECK_FALSE(ready(hold, 200, {low, high}));
  Reading answer = at(160, 0.01);
  answer.order = 3;
  CHECK(ready(hold, 200, {low, high, answer}));
  // As one of the two that stand in for the model, the earlier one is void.
  const Hold long_hold = hold_of(60, 1000);
  CHECK_FALSE(ready(long_hold, 200, {low, high, answer}));
  low = at(165, 0.01), low.order = 1;
  answer = at(190, 0.01), answer.order = 3;
  CHECK_FALSE(ready(long_hold, 200, {low, high, answer}));
  Reading second = at(206, 0.01);
  second.order = 4;
  CHECK(ready(long_hold, 210, {high, answer, second}));
}

TEST_CASE("What was read and has no limit speaks against the release until none of it is found") {
  const Hold hold = hold_of(60, 100);
  const auto other = [](double minute, double value, bool fan = true) {
    return at(minute, value, fan, "7722-84-1");
  };
  CHECK_FALSE(ready(hold, 200, {other(150, 0.1)}));
  CHECK_FALSE(ready(hold, 200, {other(150, 0.1), other(160, 0, false)}));
  CHECK_FALSE(ready(hold, 200, {other(150, 0.1), other(160, 0.001)}));
  CHECK(ready(hold, 200, {other(150, 0.1), other(160, 0)}));
}
