// SPDX-License-Identifier: Apache-2.0
#include "fogwright/quantity.hpp"
#include "quantity/read_value.hpp"

namespace fogwright {
namespace {

using namespace text;

// A caller that names a unit which its own form does not know has a defect; nobody can type their way here.
Result<const UnitRow*> bare_unit(const Form& form, BareUnit bare) {
  if (bare.symbol.empty()) return nullptr;
  if (const UnitRow* row = find_unit(form, bare.symbol)) return row;
  return fail(ErrorCode::internal_fault, std::string(form.noun) + " has no unit " + quoted(bare.symbol));
}

template <class Q, class Grammar>
Result<Q> read_si(const Form& form, std::string_view typed, std::string_view where, BareUnit bare,
                  Grammar grammar) {
  const auto assumed = bare_unit(form, bare);
  if (!assumed) return tl::make_unexpected(assumed.error());
  return read_text(form, typed, where, [&](std::string_view s) { return grammar(s, *assumed); })
      .map(&Q::from_si);
}

template <class Q>
Result<Q> read_quantity(const Form& form, std::string_view typed, std::string_view where, BareUnit bare) {
  return read_si<Q>(form, typed, where, bare,
                    [&](std::string_view s, const UnitRow* assumed) { return read_measure(form, s, assumed); });
}

Temperature in_degrees(const Scalar& t) {
  if (t.unit->symbol == "F") return Temperature::fahrenheit(t.number);
  if (t.unit->symbol == "C") return Temperature::celsius(t.number);
  return Temperature::kelvin(t.number);
}

Read<Temperature> temperature_grammar(std::string_view s, const UnitRow* bare) {
  const bool negative = s.starts_with('-');
  if (negative || s.starts_with('+')) s = trim(s.substr(1));
  auto scalar = read_scalar(temperature_form, s, bare);
  if (!scalar) return tl::make_unexpected(scalar.error());
  if (negative) scalar->number = -scalar->number;
  return in_degrees(*scalar);
}

constexpr Form number_form{"a number", "0.5, 1 1/2 or 2,400", {}};

Read<double> number_grammar(std::string_view s) {
  const auto number = read_leading_number(s);
  if (!number) return tl::make_unexpected(number.error());
  if (number->length < s.size()) return refuse("text follows the number");
  if (number->value > 9e9) return refuse("it is far too large", "write a number up to 9,000,000,000");
  return number->value;
}

}  // namespace

Result<FloorArea> read_floor_area(std::string_view text, std::string_view where, BareUnit bare) {
  return read_quantity<FloorArea>(floor_area_form, text, where, bare);
}

Result<FaceArea> read_face_area(std::string_view text, std::string_view where, BareUnit bare) {
  return read_si<FaceArea>(face_area_form, text, where, bare, read_face);
}

Result<Length> read_length(std::string_view text, std::string_view where, BareUnit bare) {
  return read_quantity<Length>(length_form, text, where, bare);
}

Result<AirVolume> read_air_volume(std::string_view text, std::string_view where, BareUnit bare) {
  return read_quantity<AirVolume>(air_volume_form, text, where, bare);
}

Result<LiquidVolume> read_liquid_volume(std::string_view text, std::string_view where, BareUnit bare) {
  return read_quantity<LiquidVolume>(liquid_volume_form, text, where, bare);
}

Result<LiquidFlow> read_liquid_flow(std::string_view text, std::string_view where, BareUnit bare) {
  return read_quantity<LiquidFlow>(liquid_flow_form, text, where, bare);
}

Result<AirFlow> read_air_flow(std::string_view text, std::string_view where, BareUnit bare) {
  return read_quantity<AirFlow>(air_flow_form, text, where, bare);
}

Result<Mass> read_mass(std::string_view text, std::string_view where, BareUnit bare) {
  return read_quantity<Mass>(mass_form, text, where, bare);
}

Result<LiquidDensity> read_liquid_density(std::string_view text, std::string_view where, BareUnit bare) {
  return read_quantity<LiquidDensity>(liquid_density_form, text, where, bare);
}

Result<MassConcentration> read_mass_concentration(std::string_view text, std::string_view where,
                                                  BareUnit bare) {
  return read_quantity<MassConcentration>(mass_concentration_form, text, where, bare);
}

Result<FogTime> read_fog_time(std::string_view text, std::string_view where, BareUnit bare) {
  return read_quantity<FogTime>(fog_time_form, text, where, bare);
}

Result<HoldTime> read_hold_time(std::string_view text, std::string_view where, BareUnit bare) {
  return read_quantity<HoldTime>(hold_time_form, text, where, bare);
}

Result<ShelfTime> read_shelf_time(std::string_view text, std::string_view where, BareUnit bare) {
  return read_quantity<ShelfTime>(shelf_time_form, text, where, bare);
}

Result<AirChanges> read_air_changes(std::string_view text, std::string_view where, BareUnit bare) {
  return read_quantity<AirChanges>(air_changes_form, text, where, bare);
}

Result<Pressure> read_pressure(std::string_view text, std::string_view where, BareUnit bare) {
  return read_quantity<Pressure>(pressure_form, text, where, bare);
}

Result<Temperature> read_temperature(std::string_view text, std::string_view where, BareUnit bare) {
  const auto assumed = bare_unit(temperature_form, bare);
  if (!assumed) return tl::make_unexpected(assumed.error());
  const auto t = read_text(temperature_form, text, where,
                           [&](std::string_view s) { return temperature_grammar(s, *assumed); });
  if (t && t->in_kelvin() < 0.0)
    return fail(ErrorCode::out_of_range, quoted(text) + " is below absolute zero", std::string(where),
                "write a temperature above -459.67 F (-273.15 C)");
  return t;
}

Result<double> read_number(std::string_view text, std::string_view where) {
  return read_text(number_form, text, where, number_grammar);
}

Result<double> read_mass_fraction(std::string_view text, std::string_view where) {
  const UnitRow* plain = find_unit(mass_fraction_form, "fraction");
  const auto share = read_text(mass_fraction_form, text, where,
                               [&](std::string_view s) { return read_scalar(mass_fraction_form, s, plain); });
  if (!share) return tl::make_unexpected(share.error());
  // Dividing by the whole number 100 or 1,000,000 gives the double nearest to what was typed.
  const double fraction = share->number / (1.0 / share->unit->in_si);
  if (fraction <= 1.0) return fraction;
  return fail(ErrorCode::out_of_range, quoted(text) + " is more than the whole", std::string(where),
              "write a percentage up to 100 % or a fraction from 0 to 1");
}

}  // namespace fogwright
