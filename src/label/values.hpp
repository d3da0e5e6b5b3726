// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Single values of a profile. Each notes its own faults and then gives nullopt.

#include <fmt/format.h>

#include <optional>
#include <string>
#include <string_view>

#include "fogwright/quantity.hpp"
#include "label/nearest.hpp"
#include "label/reading.hpp"
#include "label/words.hpp"

namespace fogwright::profile {

/// One line of text without control characters, not blank, at most `longest` characters.
[[nodiscard]] std::optional<std::string> read_line(Reading& reading, const Spot& spot, std::size_t longest);
[[nodiscard]] std::optional<double> read_bare_number(Reading& reading,
                                                     const Spot& spot);  ///< above 0, at most 1e6
[[nodiscard]] std::optional<bool> read_flag(Reading& reading, const Spot& spot);
/// Needs its % or ppm: a bare 0.5 copied from a label's "0.5 %" would be a hundred times too strong.
[[nodiscard]] std::optional<double> read_fraction(Reading& reading, const Spot& spot);
/// A date of the calendar, 1970 to 2099.
[[nodiscard]] std::optional<std::string> read_date(Reading& reading, const Spot& spot);
[[nodiscard]] std::optional<std::string> read_cas(Reading& reading, const Spot& spot);
[[nodiscard]] std::optional<std::string> read_un_number(Reading& reading, const Spot& spot);

/// One of a list of words that are kept as they stand.
void read_listed(Reading& reading, const Spot& spot, const std::vector<std::string_view>& known,
                 std::string& into);
[[nodiscard]] std::vector<std::string_view>
hazard_classes();  ///< 49 CFR 173.2 (from memory), those a liquid product can have
[[nodiscard]] std::vector<std::string_view> packing_groups();

/// The check digit of a CAS registry number: its digits from right to left times 1, 2, 3, ..., summed
/// modulo 10. Source: CAS, "Check Digit Verification of CAS Registry Numbers" (from memory).
[[nodiscard]] bool is_cas_number(std::string_view text);
[[nodiscard]] bool is_calendar_date(std::string_view text);

/// What a profile may sensibly hold of each quantity; outside of it a unit or a digit has slipped.
template <class Q>
struct Range {
  Q low, high;
  std::string_view words;
};
[[nodiscard]] Range<LiquidVolume> range_of(LiquidVolume);
[[nodiscard]] Range<LiquidDensity> range_of(LiquidDensity);
[[nodiscard]] Range<MassConcentration> range_of(MassConcentration);
[[nodiscard]] Range<FogTime> range_of(FogTime);
[[nodiscard]] Range<HoldTime> range_of(HoldTime);
[[nodiscard]] Range<ShelfTime> range_of(ShelfTime);
[[nodiscard]] Range<AirChanges> range_of(AirChanges);
[[nodiscard]] Range<Length> range_of(Length);
[[nodiscard]] Range<Temperature> range_of(Temperature);

template <class Q>
using QuantityReader = Result<Q> (*)(std::string_view, std::string_view, BareUnit);

template <class Q>
[[nodiscard]] std::optional<Q> read_quantity(Reading& reading, const Spot& spot, QuantityReader<Q> read) {
  const auto text = read_line(reading, spot, longest_text);
  if (!text) return std::nullopt;
  const auto value = read(*text, reading.where(spot.at()), {});
  if (!value) {
    reading.fault(spot, value.error().message, value.error().hint);
    return std::nullopt;
  }
  const auto range = range_of(*value);
  if (range.low <= *value && *value <= range.high) return *value;
  reading.fault(spot, fmt::format("{} is not plausible", in_quotes(*text)),
                fmt::format("write {}", range.words));
  return std::nullopt;
}

template <class E>
[[nodiscard]] std::optional<E> read_word(Reading& reading, const Spot& spot) {
  std::string text;
  read_listed(reading, spot, written_words<E>(), text);
  for (const auto& word : words_of(E{}))
    if (word.written == text) return word.value;
  return std::nullopt;
}

}  // namespace fogwright::profile
