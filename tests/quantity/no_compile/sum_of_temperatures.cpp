// SPDX-License-Identifier: Apache-2.0
#include "fogwright/quantity.hpp"

using namespace fogwright;

#ifdef MISUSE
const auto value = Temperature::celsius(20) + Temperature::celsius(1);
#else
const auto value = Temperature::celsius(20) > Temperature::celsius(1);
#endif
