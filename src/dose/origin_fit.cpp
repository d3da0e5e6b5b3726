// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "fogwright/dose.hpp"

namespace fogwright {

Result<OriginFit> fit_through_origin(std::span<const double> x, std::span<const double> y) {
  if (x.size() != y.size() || x.size() < 2)
    return fail(ErrorCode::missing_value,
                fmt::format("A fit needs two points or more; there are {} x and {} y.", x.size(), y.size()),
                "points", "Give as many y as x, at least two of each.");
  double xx = 0, xy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xx += x[i] * x[i];
    xy += x[i] * y[i];
  }
  if (!(xx > 0 && std::isfinite(xx) && std::isfinite(xy)))
    return fail(ErrorCode::out_of_range, "A line through the origin cannot be fitted to these points.",
                "points", "Give finite values, and at least one x that is not zero.");

  OriginFit fit;
  fit.slope = xy / xx;
  double squares = 0;
  for (std::size_t i = 0; i < x.size(); ++i) squares += std::pow(y[i] - fit.slope * x[i], 2);
  fit.residual_deviation = std::sqrt(squares / static_cast<double>(x.size() - 1));
  fit.standard_error = fit.residual_deviation / std::sqrt(xx);
  return fit;
}

}  // namespace fogwright
