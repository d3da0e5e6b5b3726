// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>

#include "air/house.hpp"

using namespace house;

namespace {

AirResult air(const Zone& zone, const Label& label) {
  return air_after_fogging(zone, input_of(label, LiquidVolume{1, unit::litre})).value();
}

double hours(HoldTime t) { return t.value_in(unit::hour); }

Zone aired_house() {
  Zone zone = bare_house();
  zone.airing = AirChanges{4, unit::per_hour};
  zone.airing_from = HoldTime{30, unit::minute};
  return zone;
}

/// Sum of concentration over occupant limit at a time, straight from the model of each active.
double index_at(const AirResult& result, const std::vector<double>& losses, double t) {
  double sum = 0;
  for (std::size_t i = 0; i < losses.size(); ++i) {
    const double airing = std::max(t - 0.5, 0.0), closed = t - airing;
    sum += result.actives[i].peak / *result.actives[i].occupant *
           std::exp(-(0.18 + losses[i]) * closed - (4 + losses[i]) * airing);
  }
  return sum;
}

}  // namespace

TEST_CASE("a mixture takes longer than any of its parts") {
  const Label label = label_with({vapour(acetic_acid, 0.01), vapour(peroxide, 0.001)});
  const AirResult result = air(aired_house(), label);
  const double time = hours(result.to_mixture_occupant->at_once);
  for (const ActiveAir& active : result.actives) CHECK(time > hours(active.to_occupant->at_once));
  CHECK(index_at(result, {0, 0}, time) == Approx(1).epsilon(1e-10));
  CHECK(hours(result.model_time) == time);
  CHECK(result.mixture_index == Approx(result.actives[0].peak / result.actives[0].worker->value +
                                       result.actives[1].peak / result.actives[1].worker->value));
}

TEST_CASE("parts with different losses: the exact time, or a little later") {
  Label label = label_with({vapour(acetic_acid, 0.01), vapour(peroxide, 0.02)});
  label.actives[1].loss_per_hour = 1;
  label.actives[1].loss_source = "a chamber test";
  const AirResult result = air(aired_house(), label);
  const double time = hours(result.to_mixture_occupant->at_once);
  CHECK(index_at(result, {0, 1}, time) <= 1);
  CHECK(index_at(result, {0, 1}, time * (1 - 3e-9)) > 1);
}

TEST_CASE("one part still rising while another falls: the last crossing of the sum") {
  Label label = label_with({vapour(acetic_acid, 0.004), vapour(peroxide, 0.0006)});
  label.actives[1].off_gassing = HoldTime{6, unit::hour};
  Zone zone = bare_house();
  zone.closed = AirChanges{0.5, unit::per_hour};
  const AirResult result = air(zone, label);
  const double found = hours(result.to_mixture_occupant->off_gassing);
  const auto index = [&](double t) {
    const auto ratio = [&](std::size_t i) { return result.actives[i].peak / *result.actives[i].occupant; };
    const double on = std::min(t, 6.0);
    const double emitted = ratio(1) / 6 / 0.5 * (1 - std::exp(-0.5 * on)) * std::exp(-0.5 * (t - on));
    return ratio(0) * std::exp(-0.5 * t) + emitted;
  };
  double last_above = 0;
  for (double t = 0; t < 60; t += 1e-4)
    if (index(t) > 1) last_above = t;
  CHECK(found >= last_above);
  CHECK(found <= last_above + 2e-4);
}

TEST_CASE("a part without a limit of its own is left out, and one part alone is its own mixture") {
  const Label label = label_with({vapour(peracetic_acid, 0.001), vapour(peroxide, 0.001)});
  const AirResult result = air(aired_house(), label);
  CHECK(result.to_mixture_occupant->at_once == result.actives[1].to_occupant->at_once);
  CHECK_FALSE(air(aired_house(), label_with({vapour(peracetic_acid, 0.001)})).to_mixture_occupant.has_value());
}

TEST_CASE("unlike parts without any ventilation never clear, or always were clear") {
  Label label = label_with({vapour(acetic_acid, 0.01), vapour(peroxide, 0.02)});
  label.actives[1].off_gassing = HoldTime{1, unit::hour};
  Zone zone = bare_house();
  zone.closed = {};
  CHECK(std::isinf(hours(air(zone, label).to_mixture_occupant->off_gassing)));
  label.actives[0].mass_fraction = 1e-9;
  label.actives[1].mass_fraction = 1e-9;
  CHECK(hours(air(zone, label).to_mixture_occupant->off_gassing) == 0);
}
