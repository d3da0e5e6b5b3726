// SPDX-License-Identifier: Apache-2.0
#include "fogwright/quantity.hpp"

using namespace fogwright;

#ifdef MISUSE
const auto value = LiquidFlow(1, unit::millilitre_per_second) * HoldTime(1, unit::minute);
#else
const auto value = LiquidFlow(1, unit::millilitre_per_second) * FogTime(1, unit::minute);
#endif
