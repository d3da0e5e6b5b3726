// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "air/house.hpp"
// After Catch: rapidcheck has no glue of its own for it in Debian.
#include <rapidcheck.h>

using namespace house;

namespace {

double between(double low, double high) {
  return low + (high - low) * *rc::gen::inRange(0, 1'000'001) / 1'000'000.0;
}

Zone any_zone() {
  Zone zone;
  zone.gross = AirVolume{between(30, 3000), unit::cubic_metre};
  zone.free_fraction = between(0.5, 1);
  zone.closed = AirChanges{between(0.01, 2), unit::per_hour};
  if (*rc::gen::arbitrary<bool>()) zone.airing = AirChanges{between(0.05, 20), unit::per_hour};
  if (*rc::gen::arbitrary<bool>()) zone.airing_from = HoldTime{between(0, 8), unit::hour};
  zone.mixing_factor = between(1, 10);
  zone.temperature = Temperature::celsius(between(-10, 50));
  zone.pressure = Pressure{between(60, 110), unit::kilopascal};
  return zone;
}

/// Up to three actives of any sort.
Label any_label() {
  Label label = *rc::gen::arbitrary<bool>() ? acid_chlorite_label(between(1e-5, 0.03)) : label_with({});
  if (*rc::gen::arbitrary<bool>()) label.actives.push_back(vapour(peroxide, between(1e-5, 0.08)));
  label.actives.push_back(vapour(acetic_acid, between(1e-5, 0.05)));
  for (Active& active : label.actives) {
    if (*rc::gen::inRange(0, 3) == 0) active.off_gassing = HoldTime{between(0, 12), unit::hour};
    if (*rc::gen::inRange(0, 3) == 0) {
      active.loss_per_hour = between(0, 3);
      active.loss_source = "a chamber test";
    }
  }
  return label;
}

LiquidVolume any_volume() { return LiquidVolume{between(0.01, 8), unit::litre}; }

AirResult air(const Zone& zone, const Label& label, LiquidVolume volume) {
  return air_after_fogging(zone, input_of(label, volume)).value();
}

/// No later, but for rounding and the resolution of a mixture's search.
bool no_later(HoldTime a, HoldTime b) { return a <= b * (1 + 3e-9) + HoldTime{3e-9, unit::hour}; }

ConcentrationCurve any_curve() {
  std::vector<Phase> phases(*rc::gen::inRange<std::size_t>(1, 8));
  for (Phase& phase : phases) phase = {between(0.01, 5), between(0, 8), between(0, 30)};
  phases.push_back({std::numeric_limits<double>::infinity(), between(0.01, 8), 0});
  return {between(0, 100), phases};
}

}  // namespace

TEST_CASE("property: twice the dose, twice the concentration, never sooner") {
  CHECK(rc::check([] {
    const Zone zone = any_zone();
    const Label label = any_label();
    const LiquidVolume volume = any_volume();
    const AirResult one = air(zone, label, volume), two = air(zone, label, volume * 2);
    for (std::size_t i = 0; i < one.actives.size(); ++i) {
      RC_ASSERT(std::abs(two.actives[i].peak / one.actives[i].peak - 2) < 1e-12);
      RC_ASSERT(std::abs(two.actives[i].hazard_ratio / one.actives[i].hazard_ratio - 2) < 1e-12);
    }
    RC_ASSERT(no_later(one.model_time, two.model_time));
  }));
}

TEST_CASE("property: more ventilation and more loss never take longer, a mixing factor never less") {
  CHECK(rc::check([] {
    const Zone zone = any_zone();
    Label label = any_label();
    const LiquidVolume volume = any_volume();
    const HoldTime time = air(zone, label, volume).model_time;
    Zone other = zone;
    other.closed = zone.closed * between(1, 4);
    RC_ASSERT(no_later(air(other, label, volume).model_time, time));
    other = zone;
    if (zone.airing) other.airing = *zone.airing * between(1, 4);
    RC_ASSERT(no_later(air(other, label, volume).model_time, time));
    other = zone;
    other.mixing_factor = between(zone.mixing_factor, 10);
    RC_ASSERT(no_later(time, air(other, label, volume).model_time));
    for (Active& active : label.actives) {
      active.loss_per_hour = (active.loss_source.empty() ? 0 : *active.loss_per_hour) + between(0, 2);
      active.loss_source = "a chamber test";
    }
    RC_ASSERT(no_later(air(zone, label, volume).model_time, time));
  }));
}

TEST_CASE("property: what is given off is what the ventilation carries away") {
  CHECK(rc::check([] {
    const double removal = between(0.01, 10), hours = between(0.01, 10), emission = between(0, 100);
    const double start = between(0, 100);
    const Phase phases[] = {{hours, removal, emission}, {std::numeric_limits<double>::infinity(), removal, 0}};
    const ConcentrationCurve curve(start, phases);
    const double expected = (start + emission * hours) / removal;
    RC_ASSERT(std::abs(curve.integral(std::numeric_limits<double>::infinity()) - expected) <= 1e-10 * expected);
  }));
}

TEST_CASE(
    "property: a concentration is never negative, never above the peak, and below the limit from its time on") {
  CHECK(rc::check([] {
    const ConcentrationCurve curve = any_curve();
    const double limit = between(0.001, 50), from = curve.stays_below_from(limit);
    for (int i = 0; i < 50; ++i) {
      const double t = between(0, 60), c = curve.at(t);
      RC_ASSERT(c >= 0);
      RC_ASSERT(c <= curve.peak() * (1 + 1e-12));
      RC_ASSERT(c <= curve.peak_from(t) * (1 + 1e-12));
      if (t >= from) RC_ASSERT(c <= limit * (1 + 1e-9));
    }
    if (from > 0) RC_ASSERT(curve.at(from * (1 - 1e-6)) > limit * (1 - 1e-3));
  }));
}

TEST_CASE("property: ppm and mg/m3 round trip") {
  CHECK(rc::check([] {
    const double ppm = between(1e-6, 1e5), molar_mass = between(10, 400);
    RC_ASSERT(std::abs(ppm_from_mg_per_m3(mg_per_m3_from_ppm(ppm, molar_mass), molar_mass) / ppm - 1) < 1e-14);
  }));
}

TEST_CASE("property: an inverse answer, asked forward, meets the deadline") {
  CHECK(rc::check([] {
    const Zone zone = any_zone();
    const Label label = any_label();
    const AirInput input = input_of(label, any_volume());
    const HoldTime deadline{between(0, 40), unit::hour};
    const auto volume = volume_for_deadline(zone, input, deadline);
    RC_ASSERT(volume.has_value());
    RC_ASSERT(air(zone, label, *volume).model_time <= deadline);
    const auto airing = airing_for_deadline(zone, input, deadline);
    if (airing) {
      Zone aired = zone;
      aired.airing = airing->air_changes;
      RC_ASSERT(air(aired, label, input.volume).model_time <= deadline);
    }
  }));
}

TEST_CASE("property: no result is not a number, and the cases enclose the plan") {
  CHECK(rc::check([] {
    const Zone zone = any_zone();
    const Label label = any_label();
    const AirInput input = input_of(label, any_volume());
    const AirResult result = air_after_fogging(zone, input).value();
    RC_ASSERT(!std::isnan(result.model_time.si()));
    RC_ASSERT(std::isfinite(result.mixture_index));
    RC_ASSERT(std::isfinite(result.haze.longer().si()));
    RC_ASSERT(std::isfinite(result.moisture.dew_point_after.in_kelvin()));
    for (const ActiveAir& active : result.actives) {
      RC_ASSERT(std::isfinite(active.peak_meter_ppm));
      RC_ASSERT(active.to_worker->longer() <= active.to_occupant->longer());
      RC_ASSERT(active.to_occupant->longer() <= result.model_time);
    }
    const AirCases cases = air_with_cases(zone, input, {}).value().cases;
    RC_ASSERT(no_later(cases.low, result.model_time));
    RC_ASSERT(no_later(result.model_time, cases.high));
  }));
}
