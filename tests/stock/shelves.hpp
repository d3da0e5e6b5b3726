// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <rapidcheck.h>

#include "fogwright/stock.hpp"

namespace fogwright::testing {

inline constexpr std::int64_t april_2026_ms =
    1'775'001'600'000;  ///< 2026-04-01T00:00:00Z, from Python's datetime

inline ShelfTime days(double value) { return {value, unit::day}; }

/// Full, sealed, received ten days before April 2026, good until its last day of March.
inline Container container(std::string id, std::int64_t remaining_ul = 1000) {
  Container made;
  made.id = std::move(id);
  made.size_ul = 1000;
  made.remaining_ul = remaining_ul;
  made.received_ms = april_2026_ms - 10 * day_ms;
  made.expires = "2026-03-31";
  return made;
}

/// Containers of every state around April 2026; many share an expiry, an opening or a day of receipt.
inline rc::Gen<std::vector<Container>> shelves() {
  const auto one = rc::gen::exec([] {
    Container made =
        container(std::to_string(*rc::gen::inRange(0, 100)), *rc::gen::inRange<std::int64_t>(0, 5));
    made.expires = *rc::gen::element<std::string>("2026-03-30", "2026-03-31", "2026-04-02", "2026-02-30", "");
    made.received_ms -= *rc::gen::inRange<std::int64_t>(0, 3) * day_ms;
    if (*rc::gen::arbitrary<bool>())
      made.opened_ms = april_2026_ms - *rc::gen::inRange<std::int64_t>(0, 5) * day_ms;
    made.disposed = *rc::gen::inRange(0, 5) == 0;
    return made;
  });
  return rc::gen::container<std::vector<Container>>(one);
}

inline rc::Gen<ShelfLife> shelf_lives() {
  return rc::gen::exec([] {
    ShelfLife life;
    if (*rc::gen::arbitrary<bool>()) life.sealed = days(*rc::gen::inRange(8, 14));
    if (*rc::gen::arbitrary<bool>()) life.opened = days(*rc::gen::inRange(1, 6));
    return life;
  });
}

}  // namespace fogwright::testing
