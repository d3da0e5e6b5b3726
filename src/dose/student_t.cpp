// SPDX-License-Identifier: Apache-2.0
#include "dose/student_t.hpp"

#include <array>
#include <cstddef>

namespace fogwright {

double student_t_95(int degrees_of_freedom) noexcept {
  // The 0.975 column of NIST/SEMATECH e-Handbook of Statistical Methods 1.3.6.7.2, with five digits more.
  static constexpr std::array<double, 29> table{
      12.70620474, 4.30265273, 3.18244631, 2.77644511, 2.57058184, 2.44691185, 2.36462425, 2.30600414,
      2.26215716,  2.22813885, 2.20098516, 2.17881283, 2.16036866, 2.14478669, 2.13144955, 2.11990530,
      2.10981558,  2.10092204, 2.09302405, 2.08596345, 2.07961384, 2.07387307, 2.06865761, 2.06389856,
      2.05953855,  2.05552944, 2.05183052, 2.04840714, 2.04522964};
  if (degrees_of_freedom <= static_cast<int>(table.size()))
    return table[static_cast<std::size_t>(degrees_of_freedom - 1)];

  // Abramowitz and Stegun 26.7.5: an expansion about the normal quantile.
  constexpr double z = 1.959963984540054, z2 = z * z;
  constexpr double first = z * (z2 + 1) / 4;
  constexpr double second = z * ((5 * z2 + 16) * z2 + 3) / 96;
  constexpr double third = z * (((3 * z2 + 19) * z2 + 17) * z2 - 15) / 384;
  const double n = degrees_of_freedom;
  return z + (first + (second + third / n) / n) / n;
}

}  // namespace fogwright
