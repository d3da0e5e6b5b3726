// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/air.hpp"

namespace fogwright::air {

/// Whether the label carries an active with a lower flammable limit, or says it holds an alcohol.
[[nodiscard]] bool may_burn(const Label& label);

[[nodiscard]] Flammable flammable_air(const Zone& zone, const AirInput& input, AirVolume free);

}  // namespace fogwright::air
