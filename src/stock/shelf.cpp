// SPDX-License-Identifier: Apache-2.0
/// How long a container may be used, and which one is next.

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "fogwright/stock.hpp"
#include "stock/expiry.hpp"

namespace fogwright {
namespace {

/// An expiry that cannot be read counts as long past.
constexpr std::int64_t long_past_ms = 0;

std::int64_t end_of_life(std::int64_t from_ms, ShelfTime life) {
  return from_ms + life.floor_in(unit::millisecond);
}

struct Candidate {
  std::int64_t usable_until_ms;
  const Container* container;

  [[nodiscard]] auto turn() const {
    return std::make_tuple(usable_until_ms, !container->opened_ms.has_value(), container->received_ms,
                           std::string_view(container->id));
  }
};

std::string shown(std::int64_t ul, Rounding rounding) {
  return show(LiquidVolume(static_cast<double>(ul), unit::microlitre), UnitSystem::us_customary, rounding);
}

Result<std::vector<Take>> too_short(std::int64_t asked_ul, std::int64_t missing_ul) {
  return fail(ErrorCode::stock_short,
              fmt::format("{} is asked for, {} is on hand and may still be used: {} is missing.",
                          shown(asked_ul, Rounding::up), shown(asked_ul - missing_ul, Rounding::down),
                          shown(missing_ul, Rounding::up)),
              "volume", "Bring another container that is in date, or plan a smaller job.");
}

}  // namespace

std::int64_t usable_until_ms(const Container& container, const ShelfLife& life) {
  std::int64_t until = end_of_day_ms(container.expires).value_or(long_past_ms);
  if (life.sealed) until = std::min(until, end_of_life(container.received_ms, *life.sealed));
  if (life.opened && container.opened_ms)
    until = std::min(until, end_of_life(*container.opened_ms, *life.opened));
  return until;
}

bool usable_at(const Container& container, const ShelfLife& life, std::int64_t at_ms) {
  return !container.disposed && at_ms < usable_until_ms(container, life);
}

std::vector<const Container*> first_expired_first_out(std::span<const Container> containers,
                                                      const ShelfLife& life, std::int64_t at_ms) {
  std::vector<Candidate> usable;
  for (const Container& container : containers)
    if (container.remaining_ul > 0 && usable_at(container, life, at_ms))
      usable.push_back({usable_until_ms(container, life), &container});
  std::sort(usable.begin(), usable.end(),
            [](const Candidate& a, const Candidate& b) { return a.turn() < b.turn(); });

  std::vector<const Container*> in_turn;
  for (const Candidate& candidate : usable) in_turn.push_back(candidate.container);
  return in_turn;
}

Result<std::vector<Take>> take_from(std::span<const Container> containers, const ShelfLife& life,
                                    std::int64_t at_ms, std::int64_t ul) {
  std::vector<Take> takes;
  std::int64_t missing = ul;
  for (const Container* container : first_expired_first_out(containers, life, at_ms)) {
    if (missing <= 0) break;
    takes.push_back({container->id, std::min(missing, container->remaining_ul)});
    missing -= takes.back().ul;
  }
  if (missing > 0) return too_short(ul, missing);
  return takes;
}

}  // namespace fogwright
