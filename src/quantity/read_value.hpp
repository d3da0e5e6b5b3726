// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string_view>

#include "fogwright/error.hpp"
#include "quantity/number_text.hpp"
#include "quantity/text.hpp"
#include "quantity/unit_table.hpp"

namespace fogwright::text {

/// A number and its unit, "2,400 sq ft".
struct Scalar {
  double number = 0.0;
  const UnitRow* unit = nullptr;
  [[nodiscard]] double si() const { return number * unit->in_si; }
};

/// A number and a unit, the whole text. `bare` is the unit of a number without one, or nullptr.
/// All texts here have gone through to_ascii_symbols().
[[nodiscard]] Read<Scalar> read_scalar(const Form& form, std::string_view s, const UnitRow* bare);

/// A scalar, or where the form allows it several parts in falling order ("8 ft 6 in"); in SI units.
[[nodiscard]] Read<double> read_measure(const Form& form, std::string_view s, const UnitRow* bare);

/// A face area, or width by height: "20x30 in", "20 in x 30 in"; in square metres.
[[nodiscard]] Read<double> read_face(std::string_view s, const UnitRow* bare);

/// The Error for a refusal.
[[nodiscard]] Error as_error(const Form& form, std::string_view typed, std::string_view where, Refusal refusal);

/// The text that the grammar works on, or why it is none: empty, or longer than 200 bytes.
[[nodiscard]] Read<std::string> prepare(std::string_view typed);

/// Runs `grammar(ascii text)` and turns its refusal into an Error that quotes the text as it was typed.
template <class Grammar>
auto read_text(const Form& form, std::string_view typed, std::string_view where, Grammar grammar)
    -> Result<typename decltype(grammar(typed))::value_type> {
  const auto prepared = prepare(typed);
  if (!prepared) return tl::make_unexpected(as_error(form, typed, where, prepared.error()));
  auto read = grammar(trim(*prepared));
  if (!read) return tl::make_unexpected(as_error(form, typed, where, read.error()));
  return *read;
}

}  // namespace fogwright::text
