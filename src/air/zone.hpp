// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/air.hpp"

namespace fogwright::air {

/// Holds figures against the ranges of the model. Each comes with its name and unit, as shown in an error.
class Ranges {
 public:
  void check(std::string_view name, double value, double low, double high, std::string_view unit = {}) {
    if (!(value >= low && value <= high)) keep({name, value, low, high, unit});
  }
  /// Errors: out_of_range for the first figure that was outside, or not a number.
  [[nodiscard]] Result<void> result() const;

 private:
  struct Figure {
    std::string_view name;
    double value = 0, low = 0, high = 0;
    std::string_view unit;
  };
  void keep(const Figure& outside);

  std::optional<Figure> outside_;
};

/// check_zone and everything of the input that a face promises to refuse.
[[nodiscard]] Result<void> check_input(const Zone& zone, const AirInput& input);

[[nodiscard]] inline AirVolume free_volume(const Zone& zone) { return zone.gross * zone.free_fraction; }

}  // namespace fogwright::air
