// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/air.hpp"

namespace fogwright::air {

/// Air of one temperature at saturation: both public formulas from one logarithm.
class SaturatedAir {
 public:
  explicit SaturatedAir(Temperature temperature);
  /// As saturation_pressure_pa().
  [[nodiscard]] double pressure_pa() const;
  /// As the public dew_point().
  [[nodiscard]] Temperature dew_point(double relative_humidity) const;

 private:
  Temperature temperature_;
  double log_pressure_;
};

}  // namespace fogwright::air
