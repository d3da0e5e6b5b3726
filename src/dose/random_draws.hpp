// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <random>

namespace fogwright {

/// Random numbers that are the same wherever the program runs: the standard fixes the engine, but leaves its
/// distributions to each library.
class RandomDraws {
 public:
  explicit RandomDraws(std::uint64_t seed) : engine_(seed) {}

  /// From 0 up to, not including, 1; a multiple of 2^-53.
  double unit() { return static_cast<double>(engine_() >> 11) * 0x1p-53; }
  double rectangular(double low, double high) { return low + (high - low) * unit(); }
  /// Marsaglia's polar method.
  double normal(double mean, double deviation) { return mean + deviation * standard_normal(); }

 private:
  double standard_normal();

  std::mt19937_64 engine_;
  double spare_ = 0;
  bool has_spare_ = false;
};

}  // namespace fogwright
