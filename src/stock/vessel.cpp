// SPDX-License-Identifier: Apache-2.0
/// Taking from one vessel, and what it costs.

#include <algorithm>
#include <limits>

#include "fogwright/stock.hpp"

namespace fogwright {

Draw draw(std::int64_t remaining_ul, std::int64_t ul) {
  const std::int64_t taken = std::min(remaining_ul, ul);
  return {remaining_ul - taken, ul - taken};
}

std::optional<std::int64_t> cost_of(const Container& container, std::int64_t ul) {
  if (!container.cost_cents || container.size_ul <= 0) return std::nullopt;
  __extension__ using Wide = __int128;  // a product of two 63-bit numbers
  const Wide size = container.size_ul;
  const Wide cents = (static_cast<Wide>(*container.cost_cents) * ul + size - 1) / size;
  return static_cast<std::int64_t>(std::min<Wide>(cents, std::numeric_limits<std::int64_t>::max()));
}

}  // namespace fogwright
