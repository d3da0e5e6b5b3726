// SPDX-License-Identifier: Apache-2.0
#include "fogwright/quantity.hpp"

using namespace fogwright;

#ifdef MISUSE
const auto value = HoldTime{FogTime(1, unit::minute)};
#else
const auto value = HoldTime{HoldTime(1, unit::minute)};
#endif
