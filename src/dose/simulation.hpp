// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <vector>

#include "dose/random_draws.hpp"
#include "fogwright/dose.hpp"

namespace fogwright {

/// Mean, standard deviation and the probabilistically symmetric 95 % interval (JCGM 101:2008, 7.6 and 7.7.2).
/// Precondition: at least 40 values. Reorders them.
[[nodiscard]] SpreadBand summarise(std::vector<double>& values);

/// Draws a model `draws` times (JCGM 101:2008, 7.4): `draw` takes a RandomDraws& and returns one value of the
/// output.
template <class Model>
[[nodiscard]] SpreadBand simulate(int draws, std::uint64_t seed, Model&& draw) {
  RandomDraws random(seed);
  std::vector<double> values(static_cast<std::size_t>(draws));
  for (double& value : values) value = draw(random);
  return summarise(values);
}

}  // namespace fogwright
