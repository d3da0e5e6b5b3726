// SPDX-License-Identifier: Apache-2.0
#include <rapidcheck.h>
#include <catch2/catch.hpp>
#include <cmath>

#include "fogwright/quantity.hpp"
#include "quantity/text.hpp"
#include "quantity/unit_table.hpp"

using namespace fogwright;

namespace {

constexpr UnitSystem systems[] = {UnitSystem::us_customary, UnitSystem::metric};

// Sizes from a droplet to a warehouse: ten decades, and every sixth value a round one.
double any_size() {
  const double mantissa = *rc::gen::inRange(100, 1'000'000) / 100'000.0;
  const double scale = std::pow(10.0, *rc::gen::inRange(-4, 5));
  return *rc::gen::inRange(0, 6) == 0 ? std::round(mantissa) * scale : mantissa * scale;
}

// A billionth of the last printed digit is noise; the coarsest last digit of these figures is the first of
// three.
bool not_below(double printed, double value) { return printed >= value * (1 - 2e-9); }
bool not_above(double printed, double value) { return printed <= value * (1 + 2e-9); }

// `print` shows a value with a rounding; `read` is the reader of its kind.
template <class Q, class Print, class Read>
void check_sides(Q v, Print print, Read read) {
  const Q up = read(print(v, Rounding::up), "", BareUnit{}).value();
  const Q down = read(print(v, Rounding::down), "", BareUnit{}).value();
  const Q nearest = read(print(v, Rounding::nearest), "", BareUnit{}).value();
  RC_ASSERT(not_below(up.si(), v.si()));
  RC_ASSERT(not_above(down.si(), v.si()));
  RC_ASSERT(nearest == up || nearest == down);
}

template <class Q, class Read>
bool keeps_its_side(Unit<Q::dimension> in, Read read) {
  return rc::check([=] {
    const Q v(any_size(), in);
    for (const UnitSystem units : systems)
      check_sides(
          v, [units](Q q, Rounding rounding) { return show(q, units, rounding); }, read);
  });
}

// The same for what prints alike in both systems.
template <class Q, class Read>
bool keeps_its_side_in_one_system(Unit<Q::dimension> in, Read read) {
  return rc::check([=] {
    check_sides(
        Q(any_size(), in), [](Q q, Rounding rounding) { return show(q, rounding); }, read);
  });
}

template <class Q>
bool reads_back(const text::Form& form, Result<Q> (*read)(std::string_view, std::string_view, BareUnit)) {
  return rc::check([&form, read] {
    const auto& row = form.units[*rc::gen::inRange<std::size_t>(0, form.units.size())];
    const auto whole = *rc::gen::inRange(0, 100'000);  // as days this is just below the largest value
    const auto hundredths = *rc::gen::inRange(0, 100);
    const std::string decimals = (hundredths < 10 ? ".0" : ".") + std::to_string(hundredths);
    const double typed = whole + hundredths / 100.0;
    const auto value = read(std::to_string(whole) + decimals + " " + std::string(row.symbol), "", {});
    RC_ASSERT(value.has_value());
    RC_ASSERT(std::abs(value->si() - typed * row.in_si) <= 1e-15 * typed * row.in_si);
  });
}

}  // namespace

TEST_CASE("a figure printed upward reads back as no less and one printed downward as no more than the value") {
  CHECK(keeps_its_side<FloorArea>(unit::square_foot, read_floor_area));
  CHECK(keeps_its_side<FaceArea>(unit::square_inch, read_face_area));
  CHECK(keeps_its_side<Length>(unit::inch, read_length));
  CHECK(keeps_its_side<AirVolume>(unit::cubic_foot, read_air_volume));
  CHECK(keeps_its_side<LiquidVolume>(unit::us_fluid_ounce, read_liquid_volume));
  CHECK(keeps_its_side<LiquidVolume>(unit::millilitre, read_liquid_volume));
  CHECK(keeps_its_side<LiquidFlow>(unit::millilitre_per_minute, read_liquid_flow));
  CHECK(keeps_its_side<AirFlow>(unit::cubic_foot_per_minute, read_air_flow));
  CHECK(keeps_its_side<Mass>(unit::ounce, read_mass));
  CHECK(keeps_its_side<Mass>(unit::gram, read_mass));
  CHECK(keeps_its_side<LiquidDensity>(unit::gram_per_millilitre, read_liquid_density));
}

TEST_CASE("concentrations, air changes and fog times keep their side as well") {
  CHECK(keeps_its_side_in_one_system<MassConcentration>(unit::milligram_per_cubic_metre,
                                                        read_mass_concentration));
  CHECK(keeps_its_side_in_one_system<AirChanges>(unit::per_hour, read_air_changes));
  CHECK(keeps_its_side_in_one_system<FogTime>(unit::second, read_fog_time));
}

TEST_CASE("a printed hold is no shorter than the hold and less than a minute longer") {
  CHECK(rc::check([] {
    const HoldTime v(any_size(), unit::minute);
    const HoldTime printed = read_hold_time(show(v), "").value();
    RC_ASSERT(not_below(printed.si(), v.si()));
    RC_ASSERT(printed < v + HoldTime(1.000001, unit::minute));
  }));
}

TEST_CASE("a printed shelf life is no longer than the shelf life") {
  CHECK(rc::check([] {
    const ShelfTime v(any_size(), unit::hour);
    RC_ASSERT(not_above(read_shelf_time(show(v), "").value().si(), v.si()));
  }));
}

TEST_CASE("a number printed upward or downward keeps its side at any number of digits") {
  CHECK(rc::check([] {
    const double v = any_size();
    const int digits = *rc::gen::inRange(1, 10);
    RC_ASSERT(not_below(read_number(show_number(v, digits, Rounding::up), "").value(), v));
    RC_ASSERT(not_above(read_number(show_number(v, digits, Rounding::down), "").value(), v));
  }));
}

TEST_CASE("what is typed in any unit of the table is that many of the unit") {
  CHECK(reads_back(text::floor_area_form, read_floor_area));
  CHECK(reads_back(text::face_area_form, read_face_area));
  CHECK(reads_back(text::length_form, read_length));
  CHECK(reads_back(text::air_volume_form, read_air_volume));
  CHECK(reads_back(text::liquid_volume_form, read_liquid_volume));
  CHECK(reads_back(text::liquid_flow_form, read_liquid_flow));
  CHECK(reads_back(text::air_flow_form, read_air_flow));
  CHECK(reads_back(text::mass_form, read_mass));
  CHECK(reads_back(text::liquid_density_form, read_liquid_density));
  CHECK(reads_back(text::mass_concentration_form, read_mass_concentration));
  CHECK(reads_back(text::fog_time_form, read_fog_time));
  CHECK(reads_back(text::hold_time_form, read_hold_time));
  CHECK(reads_back(text::air_changes_form, read_air_changes));
}

TEST_CASE("feet and inches add up") {
  CHECK(rc::check([](unsigned short feet) {
    const int inches = *rc::gen::inRange(0, 12);
    const std::string f = std::to_string(feet), i = std::to_string(inches);
    const double expected = feet * 0.3048 + inches * 0.0254;
    for (const std::string& typed : {f + "'" + i + "\"", f + " ft " + i + " in", f + "' " + i + "\""})
      RC_ASSERT(std::abs(read_length(typed, "").value().si() - expected) < 1e-9);
  }));
}

TEST_CASE("no text, however odd, makes a reader give a value that is negative or not finite") {
  CHECK(rc::check([] {
    const auto odd =
        *rc::gen::container<std::string>(rc::gen::elementOf(std::string("0123456789.,/'\" -+:xehsmftinqgal")));
    if (const auto length = read_length(odd, "")) RC_ASSERT(length->is_finite() && length->si() >= 0);
    if (const auto area = read_face_area(odd, "")) RC_ASSERT(area->is_finite() && area->si() >= 0);
  }));
}
