// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <limits>

#include "gate/world.hpp"
#include "table_file.hpp"

using namespace fogwright;
using namespace fogwright::testing;
using Ground = RespiratorNeed::Ground;
using Words = std::vector<std::string_view>;

TEST_CASE("no respirator where the label asks for none and the air stays below its limits") {
  const auto need = respirator_need(ready_to_use(), air_of({vapour(hydrogen_peroxide, 1.0)}));
  CHECK_FALSE(need.required);
  CHECK(need.facepiece == Facepiece::none);
  CHECK(need.assigned_protection_factor == 0);
  CHECK(need.cartridges.empty());
  CHECK_FALSE(need.for_mixing);
  CHECK_FALSE(need.for_applying);
  CHECK(need.ground == Ground::none);
}

TEST_CASE("the least facepiece whose factor covers the hazard ratio") {
  struct Case {
    double ratio;
    Facepiece facepiece;
    int factor;
  };
  for (const Case c :
       {Case{1.01, Facepiece::half_mask, 10}, Case{10, Facepiece::half_mask, 10},
        Case{10.01, Facepiece::full_facepiece, 50}, Case{50, Facepiece::full_facepiece, 50},
        Case{50.01, Facepiece::powered, 1000}, Case{1000, Facepiece::powered, 1000},
        Case{1000.1, Facepiece::self_contained, 10'000}, Case{10'000, Facepiece::self_contained, 10'000}}) {
    CAPTURE(c.ratio);
    const auto need = respirator_need(ready_to_use(), air_of({vapour(chlorine_dioxide, c.ratio)}));
    CHECK(need.facepiece == c.facepiece);
    CHECK(need.assigned_protection_factor == c.factor);
    CHECK(need.ground == Ground::hazard_ratio);
    CHECK(need.for_applying);
    CHECK_FALSE(need.do_not_enter);
  }
}

TEST_CASE("a ratio beyond every factor, or not a number, forbids entry") {
  for (const double ratio : {10'001.0, std::numeric_limits<double>::infinity(), std::nan("")}) {
    const auto need = respirator_need(ready_to_use(), air_of({vapour(chlorine_dioxide, ratio)}));
    CHECK(need.do_not_enter);
    CHECK(need.facepiece == Facepiece::self_contained);
  }
}

// The table says of each row whether it was read.
TEST_CASE("the NIOSH recommendation at each published concentration is met or passed") {
  const std::vector<std::pair<std::string, Facepiece>> ladder{{"half mask", Facepiece::half_mask},
                                                              {"full facepiece", Facepiece::full_facepiece},
                                                              {"supplied air", Facepiece::supplied_air},
                                                              {"self-contained", Facepiece::self_contained}};
  const auto rows = table_rows("niosh_respirators.txt", 6);
  CHECK(rows.size() == 14);
  for (const Row& row : rows) {
    CAPTURE(row[0], row[3], row[4]);
    const auto least = std::ranges::find(ladder, row[4], &std::pair<std::string, Facepiece>::first);
    REQUIRE(least != ladder.end());
    REQUIRE(find_substance(row[1]) != nullptr);
    const double ratio = std::stod(row[3]) / std::stod(row[2]);
    const auto need = respirator_need(ready_to_use(), air_of({vapour(row[1].c_str(), ratio * (1 - 1e-9))}));
    CHECK(need.facepiece >= least->second);
    CHECK(need.cartridges.empty() == (least->second >= Facepiece::supplied_air || ratio > 1000));
  }
}

TEST_CASE("cartridges without label words follow the published advice, with a particulate filter") {
  const auto need = respirator_need(ready_to_use(), air_of({vapour(chlorine_dioxide, 5)}));
  CHECK(need.cartridges == Words{"chlorine dioxide", "P100"});
  CHECK(need.band_colour.empty());

  const auto two = respirator_need(ready_to_use(), air_of({vapour("64-19-7", 5), vapour("7664-41-7", 5)}));
  CHECK(two.cartridges == Words{"organic vapor", "ammonia", "P100"});
  CHECK(two.band_colour.empty());
}

TEST_CASE("the label's cartridge words stand, with their band and a particulate filter") {
  Label label = high_strength();
  const auto need = respirator_need(label, air_of({vapour(chlorine_dioxide, 5)}));
  CHECK(need.cartridges == Words{"organic vapor/acid gas", "P100"});
  CHECK(need.band_colour == "yellow");
  CHECK(need.for_mixing);
  CHECK(need.for_applying);
  CHECK(need.ground == Ground::label);

  label.applying_gear.cartridges = {"organic vapor/acid gas/P100"};
  label.mixing_gear.cartridges = {"organic vapor/acid gas/P100", "acid gas"};
  CHECK(respirator_need(label, air_of({vapour(chlorine_dioxide, 5)})).cartridges ==
        Words{"organic vapor/acid gas/P100", "acid gas"});
}

TEST_CASE("a label that names only a filter does not cover vapour") {
  Label label = ready_to_use();
  label.applying_gear.respirator = Facepiece::half_mask;
  label.applying_gear.cartridges = {"P100"};
  CHECK(respirator_need(label, air_of({vapour(chlorine_dioxide, 5)})).cartridges ==
        Words{"P100", "chlorine dioxide"});
}

// NIOSH Pocket Guide, hydrogen peroxide: no cartridge is listed (from memory).
TEST_CASE("hydrogen peroxide above its limit asks for supplied air, whatever cartridges the label lists") {
  const auto bare = respirator_need(ready_to_use(), air_of({vapour(hydrogen_peroxide, 2)}));
  CHECK(bare.facepiece == Facepiece::supplied_air);
  CHECK(bare.assigned_protection_factor == 1000);
  CHECK(bare.cartridges.empty());
  CHECK(respirator_need(high_strength(), air_of({vapour(hydrogen_peroxide, 2)})).facepiece ==
        Facepiece::supplied_air);
}

TEST_CASE("hydrogen peroxide below its limit leaves the label's respirator as it is") {
  CHECK(respirator_need(high_strength(), air_of({vapour(hydrogen_peroxide, 0.5)})).facepiece ==
        Facepiece::half_mask);
  // ... and where a high-strength label names no cartridge, nothing published covers it.
  Label label = high_strength();
  label.applying_gear.cartridges.clear();
  CHECK(respirator_need(label, air_of({vapour(hydrogen_peroxide, 0.5)})).facepiece == Facepiece::supplied_air);
}

TEST_CASE("where nothing is published the label's cartridges stand") {
  const Label label = high_strength();
  const auto need = respirator_need(label, air_of({vapour("79-21-0", 5)}));  // peracetic acid
  CHECK(need.facepiece == Facepiece::half_mask);
  CHECK(need.cartridges == Words{"organic vapor/acid gas", "P100"});
  CHECK(respirator_need(ready_to_use(), air_of({vapour("79-21-0", 5)})).facepiece == Facepiece::supplied_air);
}

TEST_CASE("vapours that are each below their limit but together above it count") {
  AirResult air = air_of({vapour(chlorine_dioxide, 0.7), vapour("7664-41-7", 0.7)});
  air.mixture_index = 1.4;
  const auto need = respirator_need(ready_to_use(), air);
  CHECK(need.facepiece == Facepiece::half_mask);
  CHECK(need.cartridges == Words{"chlorine dioxide", "ammonia", "P100"});
  CHECK_THAT(respirator_reason(need, ready_to_use(), air), Catch::Contains("together may reach 1.4 times"));
}

// 29 CFR 1910.134(d)(2).
TEST_CASE("above the immediately dangerous level nobody enters, and the regulation's respirator is named") {
  AirResult air = air_of({vapour(hydrogen_peroxide, 80)});
  air.above_immediately_dangerous = air.actives[0].above_immediately_dangerous = true;
  for (const Label& label : {ready_to_use(), dilutable(), high_strength()}) {
    const auto need = respirator_need(label, air);
    CHECK(need.do_not_enter);
    CHECK(need.required);
    CHECK(need.for_applying);
    CHECK(need.facepiece == Facepiece::self_contained);
    CHECK(need.assigned_protection_factor == 10'000);
    CHECK(need.cartridges.empty());
    CHECK(need.ground == Ground::immediately_dangerous);
    CHECK_THAT(respirator_reason(need, label, air),
               Catch::Contains("hydrogen peroxide") && Catch::Contains("do not enter"));
  }
}

TEST_CASE("what cannot be estimated counts as immediately dangerous for a high-strength product") {
  const AirResult air = air_of({hidden_vapour()});
  const auto need = respirator_need(high_strength(), air);
  CHECK(need.do_not_enter);
  CHECK(need.ground == Ground::not_estimable);
  CHECK_THAT(respirator_reason(need, high_strength(), air), Catch::Contains("1910.134(d)(1)(iii)"));
}

TEST_CASE("what cannot be estimated leaves the label's demand for the other classes") {
  const AirResult air = air_of({hidden_vapour()});
  CHECK_FALSE(respirator_need(ready_to_use(), air).required);
  Label label = dilutable();
  label.applying_gear.respirator = Facepiece::full_facepiece;
  label.applying_gear.cartridges = {"organic vapor"};
  const auto need = respirator_need(label, air);
  CHECK(need.facepiece == Facepiece::full_facepiece);
  CHECK_FALSE(need.do_not_enter);
  CHECK(need.ground == Ground::label);
}

TEST_CASE("a filtering facepiece holds back no vapour") {
  Label label = ready_to_use();
  label.applying_gear.respirator = Facepiece::filtering;
  CHECK(respirator_need(label, air_of({})).facepiece == Facepiece::filtering);
  CHECK(respirator_need(label, air_of({vapour(chlorine_dioxide, 2)})).facepiece == Facepiece::half_mask);
}

TEST_CASE("a label that asks for supplied air is raised where the published advice is a self-contained one") {
  Label label = ready_to_use();
  label.applying_gear.respirator = Facepiece::supplied_air;
  CHECK(respirator_need(label, air_of({vapour("50-00-0", 2)})).facepiece == Facepiece::self_contained);
  CHECK(respirator_need(label, air_of({vapour("50-00-0", 0.5)})).facepiece == Facepiece::supplied_air);
}

TEST_CASE("a high-strength product whose label asks for no respirator still gets one, to mix and to fog") {
  Label label = high_strength();
  label.applying_gear.respirator.reset();
  const auto need = respirator_need(label, air_of({vapour(chlorine_dioxide, 0.1)}));
  CHECK(need.facepiece == Facepiece::half_mask);
  CHECK(need.ground == Ground::common_practice);
  CHECK(need.for_mixing);
  CHECK(need.for_applying);
}

TEST_CASE("a respirator that the label wants for mixing alone is for mixing") {
  Label label = ready_to_use();
  label.mixing_gear.respirator = Facepiece::full_facepiece;
  const auto need = respirator_need(label, air_of({}));
  CHECK(need.facepiece == Facepiece::full_facepiece);
  CHECK(need.for_mixing);
  CHECK_FALSE(need.for_applying);
}

TEST_CASE("every ground has a reason of its own, which promises nothing") {
  std::vector<std::string> reasons;
  for (const Ground ground : {Ground::none, Ground::label, Ground::hazard_ratio, Ground::immediately_dangerous,
                              Ground::not_estimable, Ground::common_practice}) {
    RespiratorNeed need;
    need.ground = ground;
    need.facepiece = Facepiece::half_mask;
    reasons.push_back(respirator_reason(need, high_strength(), air_of({vapour(chlorine_dioxide, 3.14)})));
    CHECK_FALSE(reasons.back().empty());
    CHECK(reasons.back().find("safe") == std::string::npos);
  }
  CHECK_THAT(reasons[2], Catch::Contains("3.2 times"));  // rounded up
  std::ranges::sort(reasons);
  CHECK(std::ranges::adjacent_find(reasons) == reasons.end());
}
