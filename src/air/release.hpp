// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/air.hpp"

namespace fogwright::air {

/// How the building is ventilated from fog-off on: closed, then aired out for good. Rates per hour over the
/// mixing factor; hours.
struct Ventilation {
  double closed = 0;
  double airing = 0;
  double airing_from = 0;  ///< infinite where nobody airs out
};

/// When airing starts after fog-off, if anybody airs out.
[[nodiscard]] HoldTime airing_start(const Zone& zone, const Label& label);
[[nodiscard]] Ventilation ventilation_of(const Zone& zone, const Label& label);

/// What one active (or their weighted sum) puts into the air.
struct Source {
  double at_once = 0;            ///< concentration if all of it is in the air at fog-off
  double loss_per_hour = 0;      ///< other than ventilation
  double off_gassing_hours = 0;  ///< 0: at once
};

/// The same in both releases, from fog-off on.
struct BothReleases {
  BothReleases(const Ventilation& ventilation, const Source& source);
  [[nodiscard]] TimeToLimit time_to(double limit) const;

  ConcentrationCurve at_once;
  ConcentrationCurve off_gassing;
};

/// The concentration that starts at `start` and is fed with `emission` (per hour) for `hours`.
[[nodiscard]] ConcentrationCurve curve(const Ventilation& ventilation, double loss_per_hour, double start,
                                       double emission = 0, double hours = 0);

/// An active's source in this building, with a mass fraction that is known.
[[nodiscard]] Source source_of(const Zone& zone, const Label& label, const Active& active,
                               double at_once_mg_per_m3);

}  // namespace fogwright::air
