// SPDX-License-Identifier: Apache-2.0
// Expected values computed independently unless a source is named.
#include <catch2/catch.hpp>
#include <cmath>

#include "air/house.hpp"

using namespace house;

namespace {

Approx near(double value) { return Approx(value).epsilon(1e-10); }

/// 70 % by volume: 549.36 g of 2-propanol in a litre.
Label rubbing_alcohol() { return label_with({vapour(propanol, 0.7)}, 0.7848); }

Flammable flammable(const Label& label, std::optional<AirFlow> fan, Zone zone = bare_house()) {
  AirInput input = input_of(label, LiquidVolume{1, unit::litre});
  input.fan = fan;
  return air_after_fogging(zone, input).value().flammable;
}

constexpr auto cfm = unit::cubic_foot_per_minute;

}  // namespace

// Read. Above a tenth of the lower limit an atmosphere counts as hazardous: 29 CFR 1910.146(b).
TEST_CASE("the shipped lower limits are those of the NIOSH Pocket Guide, and its IDLH is a tenth of them") {
  CHECK(find_substance(ethanol)->lower_flammable_percent == 3.3);
  CHECK(find_substance(propanol)->lower_flammable_percent == 2.0);
  for (const char* cas : {ethanol, propanol}) {
    const Substance& substance = *find_substance(cas);
    const auto idlh = governing_limit(vapour(cas, 1), LimitKind::immediately_dangerous, {});
    const double ppm = ppm_from_mg_per_m3(idlh->value.value_in(mg_per_m3), substance.molar_mass);
    CHECK(ppm == near(*substance.lower_flammable_percent * 1e4 / 10));
  }
}

// Computed independently. The mixture formula of Le Chatelier is from memory as well.
TEST_CASE(
    "lower flammable limits by mass, by temperature (Zabetakis, from memory) and of mixtures (Le Chatelier)") {
  CHECK(lower_flammable_g_m3(3.3, 46.069) == near(62.1398697862));
  CHECK(lower_flammable_g_m3(2.0, 60.096) == near(49.1273315938));
  CHECK(lower_flammable_percent_at(3.3, Temperature::celsius(40)) == near(3.2643105));
  CHECK(flammable_share(std::vector{1.0, 0.5}, std::vector{3.3, 2.0}) == near(0.553030303030));
}

TEST_CASE("the house average hides what the duct shows") {
  const auto f = flammable(rubbing_alcohol(), AirFlow{1200, cfm});
  CHECK(f.present);
  CHECK(f.share_house == near(0.0246813544018));
  CHECK(*f.share_duct == near(0.0329084725358));
  CHECK(f.seconds_to_tenth_fan_off == near(5.36558885908));
  CHECK(f.least_airflow.value_in(cfm) == near(394.901670429));
  CHECK_FALSE(f.plan_limit_exceeded);
  CHECK_FALSE(f.stop_limit_exceeded);
  CHECK(flammable(label_with({vapour(ethanol, 0.7)}, 0.7893), {}).share_house == near(0.0196247861653));
}

// 10 %: 29 CFR 1910.146(b). 25 %: OSHA's letter of interpretation on 1910.124 (osha.gov, interpretation 24380).
TEST_CASE("10 % plans no further, 25 % stops, and an unknown airflow counts as too little") {
  const Label label = rubbing_alcohol();
  CHECK(flammable(label, {}).plan_limit_exceeded);
  CHECK_FALSE(flammable(label, {}).share_duct.has_value());
  CHECK_FALSE(flammable(label, {}).stop_limit_exceeded);
  CHECK_FALSE(flammable(label, AirFlow{395, cfm}).plan_limit_exceeded);
  CHECK(flammable(label, AirFlow{394, cfm}).plan_limit_exceeded);
  CHECK_FALSE(flammable(label, AirFlow{158, cfm}).stop_limit_exceeded);
  CHECK(flammable(label, AirFlow{157, cfm}).stop_limit_exceeded);
}

TEST_CASE("heat and thin air bring the limit nearer, cold and dense air never move it away") {
  const auto share = [](double celsius, double kpa) {
    Zone zone = bare_house();
    zone.temperature = Temperature::celsius(celsius);
    zone.pressure = Pressure{kpa, unit::kilopascal};
    return *flammable(rubbing_alcohol(), AirFlow{1200, cfm}, zone).share_duct;
  };
  const double standard = share(25, 101.325);
  CHECK(share(40, 101.325) == near(standard / (1 - 0.000721 * 15) * (313.15 / 298.15)));
  CHECK(share(25, 80) == near(standard * 101.325 / 80));
  CHECK(share(0, 101.325) == near(standard));
  CHECK(share(25, 110) == near(standard));
}

TEST_CASE("what a label hides about an alcohol counts as all of the product") {
  const double pure = flammable(label_with({vapour(propanol, 1)}), {}).share_house;
  Label hidden = label_with({vapour(propanol, 0.1)});
  hidden.actives[0].mass_fraction.reset();
  CHECK(flammable(hidden, {}).share_house == near(pure));

  Label unnamed = label_with({vapour("7173-51-5", 0.01)});
  CHECK_FALSE(flammable(unnamed, {}).present);
  unnamed.chemistry = {Chemistry::alcohol};  // an active that the table does not know counts as one
  CHECK(flammable(unnamed, {}).share_house == near(0.01 * pure));
  unnamed.actives.clear();
  CHECK(flammable(unnamed, {}).share_house == near(pure));
}

TEST_CASE("mist counts as vapour: a mist can burn below the vapour's limit") {
  const Label as_mist = label_with({mist(propanol, 0.7)}, 0.7848);
  CHECK(flammable(as_mist, {}).share_house == near(0.0246813544018));
}

TEST_CASE("without a flow the rate follows from volume and fog time, and without both it is asked for") {
  const Label label = rubbing_alcohol();
  AirInput input = input_of(label, LiquidVolume{1, unit::litre});
  input.flow = {};
  const auto refused = air_after_fogging(bare_house(), input);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::missing_value);
  CHECK(refused.error().where == "flow");
  CHECK_FALSE(refused.error().hint.empty());
  input.fog_time = FogTime{10, unit::minute};
  CHECK(air_after_fogging(bare_house(), input)->flammable.seconds_to_tenth_fan_off == near(5.36558885908));
}

TEST_CASE("a product without fuel asks for no airflow") {
  const auto f = flammable(label_with({vapour(peroxide, 0.03)}), {});
  CHECK_FALSE(f.present);
  CHECK_FALSE(f.plan_limit_exceeded);
}
