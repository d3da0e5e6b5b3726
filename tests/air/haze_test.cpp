// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "air/house.hpp"

using namespace house;

namespace {

constexpr LiquidVolume gallon{1, unit::us_gallon};
Approx near(double value) { return Approx(value).epsilon(1e-9); }

Haze haze(const Label& label, const Zone& zone = bare_house(), LiquidVolume volume = gallon) {
  return air_after_fogging(zone, input_of(label, volume)).value().haze;
}

double hours(HoldTime t) { return t.value_in(unit::hour); }

Label plain(std::optional<double> nonvolatile, std::optional<double> micrometres = {}) {
  Label label = label_with({mist("7173-51-5", 0.002)});
  label.nonvolatile_fraction = nonvolatile;
  if (micrometres) label.droplet_diameter = Length{*micrometres, unit::micrometre};
  return label;
}

/// Stirred settling under 8 ft with 0.18 air changes, to 0.5 mg/m3.
double settled(double start, double velocity_m_s) {
  return std::log(start / 0.5) / (velocity_m_s * 3600 / 2.4384 + 0.18);
}

}  // namespace

// Stirred settling: Hinds, ch. 3, from memory. Velocities and residue size computed independently.
TEST_CASE("droplets and dried residue are two bounds, with settling velocities of their own") {
  const Haze h = haze(plain(0.01));
  const double whole = gallon.value_in(unit::millilitre) * 1000 / bare_house().gross.si();
  CHECK(h.limit.value_in(mg_per_m3) == near(0.5));
  CHECK(h.droplets.value_in(mg_per_m3) == near(whole));
  CHECK(h.residue.value_in(mg_per_m3) == near(whole * 0.01));
  CHECK(h.droplet_diameter.value_in(unit::micrometre) == near(20));
  CHECK(h.residue_diameter.value_in(unit::micrometre) == near(4.30886938006));  // computed independently
  CHECK(hours(h.droplet_time) == near(settled(whole, 1.21372041989e-2)));
  CHECK(hours(h.residue_time) == near(settled(whole * 0.01, settling_velocity_m_s(h.residue_diameter))));
  CHECK(h.longer() == h.residue_time);
  CHECK(h.diameter_basis == Basis::assumed);
  CHECK(h.nonvolatile_basis == Basis::label);
}

TEST_CASE("a droplet size from the label is used and named") {
  const Haze h = haze(plain(0.005, 50));
  CHECK(h.residue_diameter.value_in(unit::micrometre) == near(8.54987973338));
  CHECK(h.diameter_basis == Basis::label);
}

TEST_CASE("a hidden non-volatile share is taken where the haze stays longest, between what is named and 5 %") {
  const Haze worst = haze(plain({}));
  CHECK(worst.nonvolatile_basis == Basis::assumed);
  CHECK(worst.nonvolatile_fraction >= 0.002);
  CHECK(worst.nonvolatile_fraction <= 0.05);
  for (double share = 0.002; share <= 0.05; share *= 1.1)
    CHECK(hours(worst.residue_time) >= 0.97 * hours(haze(plain(share)).residue_time));
  CHECK(worst.residue_time >= haze(plain(0.05)).residue_time);
  CHECK(worst.residue_time >= haze(plain(0.002)).residue_time);

  // More than 5 % named: the sum of what is named.
  const Haze rich = haze(label_with({mist("57-55-6", 0.08), mist("112-27-6", 0.04)}));
  CHECK(rich.nonvolatile_fraction == near(0.12));
}

TEST_CASE("a lower limit of a mist active counts for all of the haze") {
  Label label = plain(0.01);
  label.actives[0].eight_hour = PrintedLimit{{}, MassConcentration{1, mg_per_m3}};
  CHECK(haze(label).limit.value_in(mg_per_m3) == near(0.1));
  label.actives[0].occupant = PrintedLimit{{}, MassConcentration{0.02, mg_per_m3}};
  CHECK(haze(label).limit.value_in(mg_per_m3) == near(0.02));
  label.actives[0].occupant = PrintedLimit{{}, MassConcentration{2, mg_per_m3}};
  CHECK(haze(label).limit.value_in(mg_per_m3) == near(0.5));  // a higher one does not
}

TEST_CASE("the haze follows the same curve as everything else in the air") {
  Zone zone = bare_house();
  zone.airing = AirChanges{5, unit::per_hour};
  zone.airing_from = HoldTime{30, unit::minute};
  zone.mixing_factor = 2;
  for (const double share : {0.001, 0.01, 0.1, 1.0}) {
    const Haze h = haze(plain(share), zone);
    const double settling = settling_velocity_m_s(h.residue_diameter) * 3600 / 2.4384;
    const Phase phases[] = {{0.5, settling + 0.09, 0},
                            {std::numeric_limits<double>::infinity(), settling + 2.5, 0}};
    const ConcentrationCurve curve(h.residue.value_in(mg_per_m3), phases);
    CHECK(hours(h.residue_time) == near(curve.stays_below_from(0.5)));
  }
}

TEST_CASE("airing out and a low ceiling shorten the haze, a mixing factor lengthens it") {
  const Label label = plain(0.01);
  const double plain_hours = hours(haze(label).residue_time);
  Zone zone = bare_house();
  zone.airing = AirChanges{5, unit::per_hour};
  zone.airing_from = HoldTime{30, unit::minute};
  CHECK(hours(haze(label, zone).residue_time) < plain_hours);
  zone.airing_from = HoldTime{10, unit::hour};
  CHECK(hours(haze(label, zone).residue_time) == near(plain_hours));
  zone = bare_house();
  zone.ceiling = Length{7, unit::foot};
  CHECK(hours(haze(label, zone).residue_time) < plain_hours);
  zone = bare_house();
  zone.mixing_factor = 5;
  CHECK(hours(haze(label, zone).residue_time) > plain_hours);
}

TEST_CASE("nothing that stays, no residue; nothing fogged, no haze") {
  const Haze dry = haze(plain(0.0));
  CHECK(dry.residue_time == HoldTime{});
  CHECK(dry.residue.si() == 0);
  CHECK(dry.droplet_time > HoldTime{});
  CHECK(haze(plain({}), bare_house(), LiquidVolume{}).longer() == HoldTime{});
}
