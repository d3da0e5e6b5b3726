// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace fogwright {

/// Splits several totals over the same weights by largest remainder, see apportion(). Its scratch space is made
/// once.
class Apportioner {
 public:
  /// Precondition: no weight is negative, and at least one is not zero. The weights must outlive this object.
  explicit Apportioner(std::span<const std::int64_t> weights);

  /// Precondition: total >= 0, and as many shares as weights.
  void split(std::int64_t total, std::span<std::int64_t> shares);

 private:
  // A product of two 63-bit numbers needs 126 bits, and so may the sum of many weights.
  __extension__ using Wide = unsigned __int128;

  struct Remainder {
    Wide rest = 0;
    std::size_t index = 0;
  };

  void split_equally(std::int64_t total, std::span<std::int64_t> shares) const;

  std::span<const std::int64_t> weights_;
  bool equal_;
  Wide sum_ = 0;
  std::vector<Remainder> remainders_;
};

}  // namespace fogwright
