// SPDX-License-Identifier: Apache-2.0
#include "quantity/read_value.hpp"

#include <algorithm>

namespace fogwright::text {
namespace {

constexpr std::size_t longest_text = 200;
constexpr double largest_si = 9e9;  // in microlitres or milliseconds this still fits 64 bits

bool starts_with_number(std::string_view s) {
  return !s.empty() && (is_digit(s[0]) || (s[0] == '.' && s.size() > 1 && is_digit(s[1])));
}

tl::unexpected<Refusal> refuse_unit(const Form& form, std::string_view unit) {
  if (const Trap* trap = find_trap(form, unit))
    return refuse(std::string(trap->reason), std::string(trap->hint));
  if (starts_with_number(unit)) return refuse("two numbers follow each other");
  if (unit.starts_with('-')) return refuse("one value is expected, not a range");
  return refuse("the unit " + quoted(unit) + " is not known here");
}

Read<const UnitRow*> read_unit(const Form& form, std::string_view s, const UnitRow* bare) {
  const std::string_view unit = trim(s);
  if (unit.empty() && bare == nullptr) return refuse("the unit is missing");
  if (unit.empty()) return bare;
  const bool trapped = find_trap(form, unit) != nullptr;
  if (const UnitRow* row = find_unit(form, unit); row != nullptr && !trapped) return row;
  return refuse_unit(form, unit);
}

template <class T>
Read<T> within_range(T value, double si) {
  if (!(si <= largest_si)) return refuse("it is far too large");
  return value;
}

// Characters up to the number of the next part. "8'-6\"" has a dash in front of it.
std::size_t unit_length(std::string_view s) {
  std::size_t end = 0;
  while (end < s.size() && !starts_with_number(s.substr(end))) ++end;
  return end;
}

std::string_view without_joint(std::string_view unit) {
  unit = trim(unit);
  if (unit == "'-") unit.remove_suffix(1);
  return unit;
}

// 8 ft 6 in: whole numbers but for the last part, falling units, and less than one of the unit before.
Read<double> add_part(double sum, const Scalar& part, const Scalar* before) {
  if (before != nullptr && part.unit->in_si >= before->unit->in_si)
    return refuse("the larger unit comes first");
  if (before != nullptr && part.si() >= before->unit->in_si)
    return refuse("the " + std::string(part.unit->symbol) + " must stay below one " +
                  std::string(before->unit->symbol));
  return sum + part.si();
}

Read<double> read_parts(const Form& form, std::string_view s) {
  double sum = 0.0;
  Scalar before;
  while (!s.empty()) {
    const auto number = read_leading_number(s);
    if (!number) return tl::make_unexpected(number.error());
    s.remove_prefix(number->length);
    const std::size_t length = unit_length(s);
    const auto unit = read_unit(form, without_joint(s.substr(0, length)), nullptr);
    if (!unit) return tl::make_unexpected(unit.error());
    s.remove_prefix(length);
    if (!s.empty() && !number->whole) return refuse("only the last part may have a fraction");
    const Scalar part{number->value, *unit};
    const auto added = add_part(sum, part, before.unit == nullptr ? nullptr : &before);
    if (!added) return added;
    sum = *added;
    before = part;
  }
  return within_range(sum, sum);
}

std::string_view number_free(std::string_view s) {
  const auto number = read_leading_number(s);
  return number ? s.substr(number->length) : std::string_view{};
}

struct Sides {
  std::string_view width, height;
};

// The two sides of "20x30 in", "20 X 30 in", "20*30 in", "20 in by 30 in"; empty if it is no such text.
Sides split_sides(std::string_view s) {
  const std::size_t mark = s.find_first_of("xX*");
  if (mark != std::string_view::npos) return {trim(s.substr(0, mark)), trim(s.substr(mark + 1))};
  const std::size_t by = s.find(" by ");
  if (by != std::string_view::npos) return {trim(s.substr(0, by)), trim(s.substr(by + 4))};
  return {};
}

// The unit that the second side lends to a first side without one.
const UnitRow* lent_unit(std::string_view height) { return find_unit(length_form, number_free(height)); }

}  // namespace

Read<Scalar> read_scalar(const Form& form, std::string_view s, const UnitRow* bare) {
  const auto number = read_leading_number(s);
  if (!number) return tl::make_unexpected(number.error());
  const auto unit = read_unit(form, s.substr(number->length), bare);
  if (!unit) return tl::make_unexpected(unit.error());
  const Scalar scalar{number->value, *unit};
  return within_range(scalar, scalar.si());
}

Read<double> read_measure(const Form& form, std::string_view s, const UnitRow* bare) {
  if (form.in_parts && s.find(':') != std::string_view::npos)
    return refuse("a clock time is ambiguous", "write 1 h 30 min or 1 min 30 s");
  const bool several =
      form.in_parts && !number_free(s).empty() && unit_length(number_free(s)) < number_free(s).size();
  if (several) return read_parts(form, s);
  const auto scalar = read_scalar(form, s, bare);
  if (!scalar) return tl::make_unexpected(scalar.error());
  return scalar->si();
}

Read<double> read_face(std::string_view s, const UnitRow* bare) {
  const auto [width, height] = split_sides(s);
  if (width.empty() && height.empty()) return read_measure(face_area_form, s, bare);
  const auto high = read_measure(length_form, height, nullptr);
  if (!high) return tl::make_unexpected(high.error());
  const auto wide = read_measure(length_form, width, lent_unit(height));
  if (!wide) return tl::make_unexpected(wide.error());
  return within_range(*wide * *high, *wide * *high);
}

Read<std::string> prepare(std::string_view typed) {
  if (typed.size() > longest_text) return refuse("it is longer than 200 characters");
  if (trim(typed).empty()) return refuse("it is empty");
  return to_ascii_symbols(typed);
}

Error as_error(const Form& form, std::string_view typed, std::string_view where, Refusal refusal) {
  if (refusal.hint.empty()) refusal.hint = accepted_forms(form);
  return {ErrorCode::not_understood,
          "cannot read " + quoted(typed) + " as " + std::string(form.noun) + ": " + refusal.reason,
          std::string(where), std::move(refusal.hint)};
}

}  // namespace fogwright::text
