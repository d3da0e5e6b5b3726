// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/quantity.hpp"

namespace fogwright {

/// To be measured out: three significant digits however little it is, with millilitres beside customary units.
/// "0.165 fl oz (4.88 mL)" / "4.88 mL".
[[nodiscard]] std::string show_measured(LiquidVolume v, UnitSystem units);

}  // namespace fogwright
