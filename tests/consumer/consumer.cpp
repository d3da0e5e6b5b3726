// SPDX-License-Identifier: Apache-2.0
#include <fogwright/quantity.hpp>

int main() {
  const auto area = fogwright::read_floor_area("2,400 sq ft", "area");
  return area && area->value_in(fogwright::unit::square_foot) > 2399 ? 0 : 1;
}
