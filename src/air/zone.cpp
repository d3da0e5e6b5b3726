// SPDX-License-Identifier: Apache-2.0
#include "air/zone.hpp"

#include <fmt/format.h>

#include "air/constants.hpp"
#include "air/flammable.hpp"

namespace fogwright {

namespace air {

namespace {

constexpr double longest_minutes = longest_time.value_in(unit::minute);
constexpr double most_changes = most_air_changes.value_in(unit::per_hour);

tl::unexpected<Error> out_of_range(const Bounded& figure) {
  const std::string unit = figure.unit.empty() ? "" : fmt::format(" {}", figure.unit);
  return fail(
      ErrorCode::out_of_range,
      fmt::format("{} of {:.6g}{} lies outside the air model", figure.name, figure.value, unit),
      std::string{figure.name},
      fmt::format("the model covers {} to {}{}; check the value and its unit", figure.low, figure.high, unit));
}

Result<void> check_label(const Label& label) {
  const Bounded figures[] = {
      {"density", label.density.si(), 100, 5000, "kg/m3"},
      {"non-volatile fraction", label.nonvolatile_fraction.value_or(0), 0, 1, ""},
      {"droplet diameter",
       label.droplet_diameter.value_or(Length{1, unit::micrometre}).value_in(unit::micrometre), 0.1, 1000,
       "micrometres"},
      {"empty time", label.empty_time.value_or(HoldTime{}).value_in(unit::minute), 0, longest_minutes, "min"},
  };
  return check_bounds(figures);
}

Result<void> check_active(const Active& active) {
  const Bounded figures[] = {
      {"mass fraction", active.mass_fraction.value_or(0), 0, 1, ""},
      {"yield", active.yield, 0, 100, "g/g"},
      {"off-gassing time", active.off_gassing.value_or(HoldTime{}).value_in(unit::minute), 0, longest_minutes,
       "min"},
      {"loss per hour", active.loss_per_hour.value_or(0), 0, 1000, "per hour"},
  };
  return check_bounds(figures);
}

Result<void> check_figures(const AirInput& input) {
  const Temperature surface = input.coldest_surface.value_or(Temperature::celsius(0));
  const Bounded figures[] = {
      {"volume", input.volume.value_in(unit::litre), 0, most_liquid.value_in(unit::litre), "L"},
      {"fog time", input.fog_time.value_in(unit::minute), 0, longest_minutes, "min"},
      {"flow", input.flow.value_in(unit::millilitre_per_minute), 0, 1e6, "mL/min"},
      {"airflow",
       input.fan.value_or(AirFlow{1, unit::cubic_metre_per_hour}).value_in(unit::cubic_metre_per_hour), 0.1,
       1e6, "m3/h"},
      {"plenum volume", input.plenum.value_in(unit::cubic_metre), 0.001, 1000, "m3"},
      {"relative humidity", input.relative_humidity, 0, 1, ""},
      {"coldest surface", surface.in_celsius(), -100, 100, "°C"},
  };
  return check_bounds(figures);
}

Result<void> check_flow(const AirInput& input) {
  if (!may_burn(*input.label) || input.flow.si() > 0 || input.fog_time.si() > 0) return {};
  return fail(ErrorCode::missing_value, "a flammable product is planned without the fogger's flow", "flow",
              "give the flow in mL/min: it decides how much air the duct needs");
}

}  // namespace

Result<void> check_bounds(std::span<const Bounded> figures) {
  for (const Bounded& figure : figures)
    if (!(figure.value >= figure.low && figure.value <= figure.high)) return out_of_range(figure);
  return {};
}

Result<void> check_input(const Zone& zone, const AirInput& input) {
  if (auto ok = check_zone(zone); !ok) return ok;
  if (auto ok = check_label(*input.label); !ok) return ok;
  for (const Active& active : input.label->actives)
    if (auto ok = check_active(active); !ok) return ok;
  if (auto ok = check_figures(input); !ok) return ok;
  return check_flow(input);
}

}  // namespace air

Result<void> check_zone(const Zone& zone) {
  using air::most_changes;
  const double airing = zone.airing.value_or(AirChanges{}).value_in(unit::per_hour);
  const double airing_from = zone.airing_from.value_or(HoldTime{}).value_in(unit::minute);
  const air::Bounded figures[] = {
      {"air volume", zone.gross.value_in(unit::cubic_metre), 1, 1e7, "m3"},
      {"ceiling height", zone.ceiling.value_in(unit::metre), 1, 100, "m"},
      {"free fraction", zone.free_fraction, 0.05, 1, ""},
      {"air changes", zone.closed.value_in(unit::per_hour), 0, most_changes, "per hour"},
      {"airing air changes", airing, 0, most_changes, "per hour"},
      {"airing start", airing_from, 0, air::longest_minutes, "min"},
      {"mixing factor", zone.mixing_factor, 1, 10, ""},
      {"temperature", zone.temperature.in_celsius(), -10, 50, "°C"},
      {"pressure", zone.pressure.value_in(unit::kilopascal), 60, 110, "kPa"},
      {"occupant factor", zone.occupant_factor, 1, 1000, ""},
      {"off-gassing time", zone.default_off_gassing.value_in(unit::minute), 0, air::longest_minutes, "min"},
  };
  return air::check_bounds(figures);
}

}  // namespace fogwright
