// SPDX-License-Identifier: Apache-2.0
#include "dose/random_draws.hpp"

#include <cmath>
#include <utility>

namespace fogwright {

double RandomDraws::standard_normal() {
  if (std::exchange(has_spare_, false)) return spare_;
  double x = 0, y = 0, square = 0;
  do {
    x = 2 * unit() - 1;
    y = 2 * unit() - 1;
    square = x * x + y * y;
  } while (square >= 1 || square == 0);
  const double scale = std::sqrt(-2 * std::log(square) / square);
  spare_ = y * scale;
  has_spare_ = true;
  return x * scale;
}

}  // namespace fogwright
