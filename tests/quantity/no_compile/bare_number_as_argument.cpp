// SPDX-License-Identifier: Apache-2.0
#include "fogwright/quantity.hpp"

using namespace fogwright;

#ifdef MISUSE
const auto value = show(2400.0, UnitSystem::metric);
#else
const auto value = show(FloorArea(2400, unit::square_foot), UnitSystem::metric);
#endif
