// SPDX-License-Identifier: Apache-2.0
#include "air/release.hpp"

#include <algorithm>
#include <limits>

#include "air/limits.hpp"

namespace fogwright::air {

namespace {

constexpr std::string_view chlorine_dioxide_cas = "10049-04-4";

/// Wet surfaces go on releasing chlorine dioxide: in a published test of chlorite and acid in an 87 m3 room the
/// peak came 2 to 3 h after release.
bool acid_activated_chlorite(const Label& label, const Active& active) {
  return airborne_cas(active) == chlorine_dioxide_cas &&
         std::find(label.chemistry.begin(), label.chemistry.end(), Chemistry::chlorite) !=
             label.chemistry.end();
}

HoldTime off_gassing_time(const Zone& zone, const Label& label, const Active& active) {
  if (active.off_gassing) return *active.off_gassing;
  return acid_activated_chlorite(label, active) ? zone.default_off_gassing : HoldTime{};
}

ConcentrationCurve off_gassing_curve(const Ventilation& ventilation, const Source& source) {
  if (source.off_gassing_hours <= 0) return curve(ventilation, source.loss_per_hour, source.at_once);
  return curve(ventilation, source.loss_per_hour, 0, source.at_once / source.off_gassing_hours,
               source.off_gassing_hours);
}

}  // namespace

HoldTime airing_start(const Zone& zone, const Label& label) {
  return zone.airing_from.value_or(label.empty_time.value_or(HoldTime{}));
}

Ventilation ventilation_of(const Zone& zone, const Label& label) {
  Ventilation result;
  result.closed = zone.closed.value_in(unit::per_hour) / zone.mixing_factor;
  result.airing_from = std::numeric_limits<double>::infinity();
  if (zone.airing) {
    result.airing = zone.airing->value_in(unit::per_hour) / zone.mixing_factor;
    result.airing_from = airing_start(zone, label).value_in(unit::hour);
  }
  return result;
}

ConcentrationCurve curve(const Ventilation& ventilation, double loss_per_hour, double start, double emission,
                         double hours) {
  std::array<Phase, 3> phases;
  std::size_t count = 0;
  double now = 0;
  const auto add_until = [&](double end) {
    if (end <= now) return;
    const double air = now < ventilation.airing_from ? ventilation.closed : ventilation.airing;
    phases[count++] = {end - now, air + loss_per_hour, now < hours ? emission : 0};
    now = end;
  };
  add_until(std::min(ventilation.airing_from, hours));
  add_until(std::max(ventilation.airing_from, hours));
  add_until(std::numeric_limits<double>::infinity());
  return {start, {phases.data(), count}};
}

BothReleases::BothReleases(const Ventilation& ventilation, const Source& source)
    : at_once(curve(ventilation, source.loss_per_hour, source.at_once)),
      off_gassing(off_gassing_curve(ventilation, source)) {}

TimeToLimit BothReleases::time_to(double limit) const {
  return {HoldTime{at_once.stays_below_from(limit), unit::hour},
          HoldTime{off_gassing.stays_below_from(limit), unit::hour}};
}

Source source_of(const Zone& zone, const Label& label, const Active& active, double at_once_mg_per_m3) {
  Source source;
  source.at_once = at_once_mg_per_m3;
  if (!active.loss_source.empty()) source.loss_per_hour = active.loss_per_hour.value_or(0);
  source.off_gassing_hours = off_gassing_time(zone, label, active).value_in(unit::hour);
  return source;
}

}  // namespace fogwright::air
