// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "air/release.hpp"

namespace fogwright::air {

/// What is known of a vapour active before anything is fogged: its substance and its limits.
[[nodiscard]] ActiveAir limits_of(const Zone& zone, const AirInput& input, const Active& active);
/// What it does to the air of the free volume.
void add_air(ActiveAir& air, const Zone& zone, const AirInput& input, const Ventilation& ventilation,
             AirVolume free);

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
