// SPDX-License-Identifier: Apache-2.0
#include "fogwright/quantity.hpp"

using namespace fogwright;

#ifdef MISUSE
const auto value = FogTime(1, unit::minute) < HoldTime(2, unit::minute);
#else
const auto value = FogTime(1, unit::minute) < FogTime(2, unit::minute);
#endif
