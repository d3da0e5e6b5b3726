// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "air/release.hpp"

namespace fogwright::air {

/// What is known of air.active before anything is fogged: its substance and its limits.
void add_limits(ActiveAir& air, const Zone& zone, const AirInput& input);
/// Whose times are wanted: those of workers are told to people, but decide nothing.
enum class Times { occupants, everyone };
/// What it does to the air of the free volume. `air` may hold what another dose did.
void add_air(ActiveAir& air, const Zone& zone, const AirInput& input, const Ventilation& ventilation,
             AirVolume free, Times times);

/// What people who live there may meet: the label's own occupant limit, else the lowest 8 h limit (or `other`,
/// where there is none) over the factor.
struct OccupantLimit {
  std::optional<MassConcentration> value;
  Basis basis = Basis::policy;
};
[[nodiscard]] OccupantLimit occupant_limit(const Active& active, const Substance* substance,
                                           const std::optional<GoverningLimit>& eight_hour,
                                           const std::optional<GoverningLimit>& other, double factor);

}  // namespace fogwright::air
