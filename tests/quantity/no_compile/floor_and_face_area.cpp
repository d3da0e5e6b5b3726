// SPDX-License-Identifier: Apache-2.0
#include "fogwright/quantity.hpp"

using namespace fogwright;

#ifdef MISUSE
const auto value = FloorArea(1, unit::square_foot) + FaceArea(1, unit::square_foot);
#else
const auto value = FloorArea(1, unit::square_foot) + FloorArea(1, unit::square_foot);
#endif
