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

void check_figures(Ranges& ranges, const Zone& zone) {
  ranges.check("air volume", zone.gross.value_in(unit::cubic_metre), 1, 1e7, "m3");
  ranges.check("ceiling height", zone.ceiling.value_in(unit::metre), 1, 100, "m");
  ranges.check("free fraction", zone.free_fraction, 0.05, 1);
  ranges.check("air changes", zone.closed.value_in(unit::per_hour), 0, most_changes, "per hour");
  if (zone.airing)
    ranges.check("airing air changes", zone.airing->value_in(unit::per_hour), 0, most_changes, "per hour");
  if (zone.airing_from)
    ranges.check("airing start", zone.airing_from->value_in(unit::minute), 0, longest_minutes, "min");
  ranges.check("mixing factor", zone.mixing_factor, 1, 10);
  ranges.check("temperature", zone.temperature.in_celsius(), -10, 50, "°C");
  ranges.check("pressure", zone.pressure.value_in(unit::kilopascal), 60, 110, "kPa");
  ranges.check("occupant factor", zone.occupant_factor, 1, 1000);
  ranges.check("off-gassing time", zone.default_off_gassing.value_in(unit::minute), 0, longest_minutes, "min");
}

void check_figures(Ranges& ranges, const Active& active) {
  if (active.mass_fraction) ranges.check("mass fraction", *active.mass_fraction, 0, 1);
  ranges.check("yield", active.yield, 0, 100, "g/g");
  if (active.off_gassing)
    ranges.check("off-gassing time", active.off_gassing->value_in(unit::minute), 0, longest_minutes, "min");
  if (active.loss_per_hour) ranges.check("loss per hour", *active.loss_per_hour, 0, 1000, "per hour");
}

void check_figures(Ranges& ranges, const Label& label) {
  ranges.check("density", label.density.si(), 100, 5000, "kg/m3");
  if (label.nonvolatile_fraction) ranges.check("non-volatile fraction", *label.nonvolatile_fraction, 0, 1);
  if (label.droplet_diameter)
    ranges.check("droplet diameter", label.droplet_diameter->value_in(unit::micrometre), 0.1, 1000,
                 "micrometres");
  if (label.empty_time)
    ranges.check("empty time", label.empty_time->value_in(unit::minute), 0, longest_minutes, "min");
  for (const Active& active : label.actives) check_figures(ranges, active);
}

void check_figures(Ranges& ranges, const AirInput& input) {
  ranges.check("volume", input.volume.value_in(unit::litre), 0, most_liquid.value_in(unit::litre), "L");
  ranges.check("fog time", input.fog_time.value_in(unit::minute), 0, longest_minutes, "min");
  ranges.check("flow", input.flow.value_in(unit::millilitre_per_minute), 0, 1e6, "mL/min");
  if (input.fan) ranges.check("airflow", input.fan->value_in(unit::cubic_metre_per_hour), 0.1, 1e6, "m3/h");
  ranges.check("plenum volume", input.plenum.value_in(unit::cubic_metre), 0.001, 1000, "m3");
  ranges.check("relative humidity", input.relative_humidity, 0, 1);
  if (input.coldest_surface)
    ranges.check("coldest surface", input.coldest_surface->in_celsius(), -100, 100, "°C");
}

Result<void> check_flow(const AirInput& input) {
  if (input.flow.si() > 0 || input.fog_time.si() > 0 || !may_burn(*input.label)) return {};
  return fail(ErrorCode::missing_value, "a flammable product is planned without the fogger's flow", "flow",
              "give the flow in mL/min: it decides how much air the duct needs");
}

}  // namespace

void Ranges::keep(const Figure& outside) {
  if (!outside_) outside_ = outside;
}

Result<void> Ranges::result() const {
  if (!outside_) return {};
  const std::string unit = outside_->unit.empty() ? "" : fmt::format(" {}", outside_->unit);
  return fail(ErrorCode::out_of_range,
              fmt::format("{} of {:.6g}{} lies outside the air model", outside_->name, outside_->value, unit),
              std::string{outside_->name},
              fmt::format("the model covers {} to {}{}; check the value and its unit", outside_->low,
                          outside_->high, unit));
}

Result<void> check_input(const Zone& zone, const AirInput& input) {
  Ranges ranges;
  check_figures(ranges, zone);
  check_figures(ranges, *input.label);
  check_figures(ranges, input);
  if (auto ok = ranges.result(); !ok) return ok;
  return check_flow(input);
}

}  // namespace air

Result<void> check_zone(const Zone& zone) {
  air::Ranges ranges;
  air::check_figures(ranges, zone);
  return ranges.result();
}

}  // namespace fogwright
