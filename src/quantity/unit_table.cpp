// SPDX-License-Identifier: Apache-2.0
#include "quantity/unit_table.hpp"

#include "fogwright/quantity.hpp"
#include "quantity/text.hpp"

namespace fogwright::text {
namespace {

// One table a dimension; each form takes its stretch of it.
constexpr UnitRow lengths[] = {
    {"ft", unit::foot.in_si, "ft '"},     {"in", unit::inch.in_si, "in \" ''"},
    {"m", unit::metre.in_si, "m"},        {"cm", unit::centimetre.in_si, "cm"},
    {"mm", unit::millimetre.in_si, "mm"}, {"um", unit::micrometre.in_si, "um"},
};
constexpr UnitRow areas[] = {
    {"sq ft", unit::square_foot.in_si, "sqft ft2 sf"},
    {"m2", unit::square_metre.in_si, "m2 sqm"},
    {"sq in", unit::square_inch.in_si, "sqin in2"},
    {"cm2", unit::square_centimetre.in_si, "cm2 sqcm"},
};
constexpr UnitRow volumes[] = {
    {"cu ft", unit::cubic_foot.in_si, "cuft ft3 cf"},
    {"m3", unit::cubic_metre.in_si, "m3 cum"},
    {"fl oz", unit::us_fluid_ounce.in_si, "floz usfloz"},
    {"pt", unit::us_pint.in_si, "pt uspt"},
    {"qt", unit::us_quart.in_si, "qt usqt"},
    {"gal", unit::us_gallon.in_si, "gal usgal"},
    {"mL", unit::millilitre.in_si, "ml cm3"},
    {"L", unit::litre.in_si, "l"},
    {"imp gal", unit::imperial_gallon.in_si, "impgal"},
};
constexpr UnitRow times[] = {
    {"s", unit::second.in_si, "s"},
    {"min", unit::minute.in_si, "min m"},
    {"h", unit::hour.in_si, "h"},
    {"days", unit::day.in_si, "day"},
    // A stretch of shelf life counts the shortest that the word can stand for, as the face says.
    {"weeks", 7 * unit::day.in_si, "week"},
    {"months", 30 * unit::day.in_si, "month"},
    {"years", 365 * unit::day.in_si, "year"},
};
constexpr UnitRow masses[] = {
    {"lb", unit::pound.in_si, "lb"}, {"oz", unit::ounce.in_si, "oz"},     {"kg", unit::kilogram.in_si, "kg"},
    {"g", unit::gram.in_si, "g"},    {"mg", unit::milligram.in_si, "mg"},
};
constexpr UnitRow densities[] = {
    {"mg/m3", unit::milligram_per_cubic_metre.in_si, "mg/m3 mg/cum"},
    {"ug/m3", unit::microgram_per_cubic_metre.in_si, "ug/m3 ug/cum"},
    {"g/m3", unit::gram_per_cubic_metre.in_si, "g/m3 g/cum"},
    {"g/mL", unit::gram_per_millilitre.in_si, "g/ml g/cm3 kg/l"},
    {"kg/m3", unit::kilogram_per_cubic_metre.in_si, "kg/m3 kg/cum g/l"},
    {"lb/gal", unit::pound_per_us_gallon.in_si, "lb/gal ppg"},
};
constexpr UnitRow flows[] = {
    {"cfm", unit::cubic_foot_per_minute.in_si, "cfm cuft/min ft3/min"},
    {"m3/h", unit::cubic_metre_per_hour.in_si, "m3/h cum/h"},
    {"m3/s", unit::cubic_metre_per_second.in_si, "m3/s cum/s"},
    {"L/s", unit::litre_per_second.in_si, "l/s"},
    {"mL/min", unit::millilitre_per_minute.in_si, "ml/min"},
    {"mL/s", unit::millilitre_per_second.in_si, "ml/s"},
    {"L/min", unit::litre_per_minute.in_si, "l/min lpm"},
    {"fl oz/min", unit::us_fluid_ounce_per_minute.in_si, "floz/min"},
    {"gal/h", unit::us_gallon_per_hour.in_si, "gal/h gph"},
};
constexpr UnitRow rates[] = {
    {"/h", unit::per_hour.in_si, "/h ach achr changes/h airchanges/h"},
};
constexpr UnitRow pressures[] = {
    {"inHg", unit::inch_of_mercury.in_si, "inhg"},
    {"hPa", unit::hectopascal.in_si, "hpa"},
    {"kPa", unit::kilopascal.in_si, "kpa"},
    {"Pa", unit::pascal.in_si, "pa"},
    {"mmHg", unit::millimetre_of_mercury.in_si, "mmhg"},
    {"atm", unit::atmosphere.in_si, "atm"},
};
// The size of the degree; read_temperature knows the zero points.
constexpr UnitRow temperatures[] = {
    {"F", unit::fahrenheit_degree.in_si, "f degf"},
    {"C", unit::kelvin.in_si, "c degc"},
    {"K", unit::kelvin.in_si, "k"},
};
constexpr UnitRow fractions[] = {
    {"%", 0.01, "% wt% %w/w w/w%"},
    {"ppm", 1e-6, "ppm ppmw mg/kg"},
    {"fraction", 1.0, "fraction"},
};

constexpr Trap liquid_volume_traps[] = {
    {"oz", "an ounce is a weight", "write fl oz for a volume; oz is a weight"},
    {"impfloz", "imperial fluid ounces are not taken", "write mL, or fl oz for the US fluid ounce"},
};
constexpr Trap liquid_flow_traps[] = {
    {"oz/min", "an ounce is a weight", "write fl oz/min for a volume; oz is a weight"},
    {"impgal/h", "imperial gallons per hour are not taken", "write L/min, or gal/h for the US gallon"},
};
constexpr Trap mass_traps[] = {
    {"floz", "a fluid ounce is a volume", "write oz for a weight; fl oz is a volume"},
    {"Mg", "Mg is the megagram", "write mg for milligrams or kg for kilograms"},
};
constexpr Trap mass_concentration_traps[] = {
    {"ppm", "ppm of a vapor depends on the substance",
     "write mg/m3; limits in ppm belong in the label with the CAS number"},
    {"Mg/m3", "Mg is the megagram", "write mg/m3 for milligrams"},
};
constexpr Trap shelf_time_traps[] = {
    {"m", "m could be minutes or months", "write min or months"},
};

constexpr std::span<const UnitRow> stretch(std::span<const UnitRow> table, std::size_t from,
                                           std::size_t count) {
  return table.subspan(from, count);
}

bool has_spelling(std::string_view spellings, std::string_view wanted) {
  while (!spellings.empty()) {
    const std::size_t end = spellings.find(' ');
    if (spellings.substr(0, end) == wanted) return true;
    spellings = end == std::string_view::npos ? std::string_view{} : spellings.substr(end + 1);
  }
  return false;
}

}  // namespace

constinit const Form floor_area_form{"a floor area", "2,400 sq ft or 223 m2", stretch(areas, 0, 2)};
constinit const Form face_area_form{"a face area", "20x30 in, 500 x 750 mm or 600 sq in", areas};
constinit const Form length_form{"a length", "8 ft 6 in, 8'6\" or 2.6 m", lengths, {}, true};
constinit const Form air_volume_form{"an air volume", "19,200 cu ft or 544 m3", stretch(volumes, 0, 2)};
constinit const Form liquid_volume_form{"a liquid volume", "12 fl oz, 1/3 gal or 379 mL",
                                        stretch(volumes, 2, 7), liquid_volume_traps};
constinit const Form liquid_flow_form{"a liquid flow", "180 mL/min or 6 fl oz/min", stretch(flows, 4, 5),
                                      liquid_flow_traps};
constinit const Form air_flow_form{"an air flow", "1,200 cfm or 2,040 m3/h", stretch(flows, 0, 4)};
constinit const Form mass_form{"a mass", "2.8 lb or 1.3 kg", masses, mass_traps};
constinit const Form liquid_density_form{"a density", "1.02 g/mL or 8.5 lb/gal", stretch(densities, 3, 3)};
constinit const Form mass_concentration_form{"a concentration in air", "0.28 mg/m3", stretch(densities, 0, 3),
                                             mass_concentration_traps};
constinit const Form fog_time_form{"a fog time", "48 s or 2 min 6 s", stretch(times, 0, 3), {}, true};
constinit const Form hold_time_form{"a hold time", "90 min or 1 h 30 min", stretch(times, 0, 4), {}, true};
constinit const Form shelf_time_form{"a shelf life", "12 months, 90 days or 8 h", times, shelf_time_traps,
                                     true};
constinit const Form air_changes_form{"an air change rate", "0.18/h or 5 air changes per hour", rates};
constinit const Form pressure_form{"a pressure", "29.92 inHg or 1013 hPa", pressures};
constinit const Form temperature_form{"a temperature", "70 F, 21 C or 294 K", temperatures};
constinit const Form mass_fraction_form{"a mass fraction", "0.5 %, 500 ppm or 0.005", stretch(fractions, 0, 3)};

std::span<const Form* const> all_forms() {
  static constexpr const Form* forms[] = {
      &floor_area_form,  &face_area_form,     &length_form,     &air_volume_form,     &liquid_volume_form,
      &liquid_flow_form, &air_flow_form,      &mass_form,       &liquid_density_form, &mass_concentration_form,
      &fog_time_form,    &hold_time_form,     &shelf_time_form, &air_changes_form,    &pressure_form,
      &temperature_form, &mass_fraction_form,
  };
  return forms;
}

const UnitRow* find_unit(const Form& form, std::string_view spelling) {
  const std::string canonical = canonical_unit(spelling);
  for (const UnitRow& row : form.units)
    if (has_spelling(row.spellings, canonical)) return &row;
  return nullptr;
}

const Trap* find_trap(const Form& form, std::string_view spelling) {
  if (form.traps.empty()) return nullptr;
  const std::string canonical = canonical_unit(spelling);
  for (const Trap& trap : form.traps)
    if (trap.spelling == spelling || trap.spelling == canonical) return &trap;
  return nullptr;
}

std::string accepted_forms(const Form& form) {
  std::string out = "write for example " + std::string(form.examples);
  for (const UnitRow& row : form.units) {
    out += &row == form.units.data() ? "; units: " : ", ";
    out += row.symbol;
  }
  return out;
}

}  // namespace fogwright::text
