// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <functional>
#include <limits>

#include "air/house.hpp"

using namespace house;

namespace {

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

struct Refusal {
  std::string where;
  std::function<void(Zone&, double)> set;
  std::vector<double> outside, inside;
};

const Refusal zone_refusals[] = {
    {"air volume",
     [](Zone& z, double v) {
       z.gross = AirVolume{v, unit::cubic_metre};
     },
     {0, -5, 0.9, 2e7},
     {1, 1e7}},
    {"ceiling height",
     [](Zone& z, double v) {
       z.ceiling = Length{v, unit::metre};
     },
     {0, 0.9, 101},
     {1, 100}},
    {"free fraction", [](Zone& z, double v) { z.free_fraction = v; }, {0, 0.04, 1.01, -1}, {0.05, 1}},
    {"air changes",
     [](Zone& z, double v) {
       z.closed = AirChanges{v, unit::per_hour};
     },
     {-0.1, 101},
     {0, 100}},
    {"airing air changes",
     [](Zone& z, double v) {
       z.airing = AirChanges{v, unit::per_hour};
     },
     {-1, 101},
     {0, 100}},
    {"airing start",
     [](Zone& z, double v) {
       z.airing_from = HoldTime{v, unit::day};
     },
     {-1, 31},
     {0, 30}},
    {"mixing factor", [](Zone& z, double v) { z.mixing_factor = v; }, {0, 0.9, 10.1}, {1, 10}},
    {"temperature", [](Zone& z, double v) { z.temperature = Temperature::celsius(v); }, {-11, 51}, {-10, 50}},
    {"pressure",
     [](Zone& z, double v) {
       z.pressure = Pressure{v, unit::kilopascal};
     },
     {59, 111, 0},
     {60, 110}},
    {"occupant factor", [](Zone& z, double v) { z.occupant_factor = v; }, {0, 0.9, 1001}, {1, 1000}},
    {"off-gassing time",
     [](Zone& z, double v) {
       z.default_off_gassing = HoldTime{v, unit::day};
     },
     {-1, 31},
     {0, 30}},
};

void expect_refused(const Result<AirResult>& result, const std::string& where) {
  REQUIRE_FALSE(result);
  CHECK(result.error().code == ErrorCode::out_of_range);
  CHECK(result.error().where == where);
  CHECK(result.error().message.find(where) != std::string::npos);
  CHECK(result.error().hint.find(" to ") != std::string::npos);
}

}  // namespace

TEST_CASE("a building outside the model is refused, with what it covers; its ends are inside") {
  const Label label = label_with({vapour(peroxide, 0.01)});
  const AirInput input = input_of(label, LiquidVolume{1, unit::litre});
  for (const Refusal& refusal : zone_refusals) {
    CAPTURE(refusal.where);
    auto outside = refusal.outside;
    outside.push_back(not_a_number);
    outside.push_back(infinite);
    for (const double value : outside) {
      CAPTURE(value);
      Zone zone = bare_house();
      refusal.set(zone, value);
      CHECK_FALSE(check_zone(zone));
      expect_refused(air_after_fogging(zone, input), refusal.where);
      CHECK_FALSE(air_with_cases(zone, input, {}));
      CHECK_FALSE(volume_for_deadline(zone, input, HoldTime{2, unit::hour}));
      CHECK_FALSE(airing_for_deadline(zone, input, HoldTime{2, unit::hour}));
    }
    for (const double value : refusal.inside) {
      CAPTURE(value);
      Zone zone = bare_house();
      refusal.set(zone, value);
      CHECK(check_zone(zone));
      CHECK(air_after_fogging(zone, input));
    }
  }
}

TEST_CASE("a refusal reads as a sentence") {
  Zone zone = bare_house();
  zone.temperature = Temperature::celsius(60);
  const Error error = check_zone(zone).error();
  CHECK(error.message == "temperature of 60 °C lies outside the air model");
  CHECK(error.where == "temperature");
  CHECK(error.hint == "the model covers -10 to 50 °C; check the value and its unit");
}

TEST_CASE("an input outside the model is refused") {
  const Label label = label_with({vapour(peroxide, 0.01)});
  const auto refuse = [&](const std::string& where, const std::function<void(AirInput&, double)>& set,
                          std::vector<double> values) {
    values.push_back(not_a_number);
    for (const double value : values) {
      CAPTURE(where, value);
      AirInput input = input_of(label, LiquidVolume{1, unit::litre});
      set(input, value);
      expect_refused(air_after_fogging(bare_house(), input), where);
    }
  };
  refuse("volume",
         [](AirInput& i, double v) {
           i.volume = LiquidVolume{v, unit::litre};
         },
         {-1, 1.1e5, infinite});
  refuse("flow", [](AirInput& i, double v) { i.flow = LiquidFlow{v, unit::litre_per_minute}; }, {-1, 2e3});
  refuse("fog time", [](AirInput& i, double v) { i.fog_time = FogTime{v, unit::hour}; }, {-1, 1e4});
  refuse("airflow",
         [](AirInput& i, double v) {
           i.fan = AirFlow{v, unit::cubic_metre_per_hour};
         },
         {0, -1, 2e6});
  refuse("plenum volume", [](AirInput& i, double v) { i.plenum = AirVolume{v, unit::cubic_metre}; }, {0, 2000});
  refuse("relative humidity", [](AirInput& i, double v) { i.relative_humidity = v; }, {-0.1, 1.1, 50});
  refuse("coldest surface", [](AirInput& i, double v) { i.coldest_surface = Temperature::celsius(v); },
         {-101, 101});
}

TEST_CASE("a label whose figures make no sense is refused, not computed with") {
  const auto refuse = [](const std::string& where, const std::function<void(Label&)>& spoil) {
    CAPTURE(where);
    Label label = label_with({vapour(peroxide, 0.01)});
    spoil(label);
    expect_refused(air_after_fogging(bare_house(), input_of(label, LiquidVolume{1, unit::litre})), where);
  };
  refuse("density", [](Label& l) { l.density = {}; });
  refuse("non-volatile fraction", [](Label& l) { l.nonvolatile_fraction = 1.5; });
  refuse("droplet diameter", [](Label& l) { l.droplet_diameter = Length{}; });
  refuse("empty time", [](Label& l) { l.empty_time = HoldTime{-1, unit::hour}; });
  refuse("mass fraction", [](Label& l) { l.actives[0].mass_fraction = 1.5; });
  refuse("yield", [](Label& l) { l.actives[0].yield = -1; });
  refuse("off-gassing time", [](Label& l) { l.actives[0].off_gassing = HoldTime{infinite, unit::hour}; });
  refuse("loss per hour", [](Label& l) { l.actives[0].loss_per_hour = not_a_number; });
}
