// SPDX-License-Identifier: Apache-2.0
#include "fogwright/quantity.hpp"

using namespace fogwright;

#ifdef MISUSE
const auto value = FloorArea{2400.0, unit::foot};
#else
const auto value = FloorArea{2400.0, unit::square_foot};
#endif
