// SPDX-License-Identifier: Apache-2.0
#include "asking/zone_fault.hpp"

namespace fogwright {

void no_zones(const Error& error) { throw ZoneFault(error); }

}  // namespace fogwright
