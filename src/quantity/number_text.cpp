// SPDX-License-Identifier: Apache-2.0
#include "quantity/number_text.hpp"

#include <fast_float/fast_float.h>

#include <algorithm>

#include "quantity/text.hpp"

namespace fogwright::text {
namespace {

std::size_t count_digits(std::string_view s) {
  return static_cast<std::size_t>(std::find_if_not(s.begin(), s.end(), is_digit) - s.begin());
}

// The text is digits with at most one point, so it always parses.
double to_double(std::string_view digits) {
  double value = 0.0;
  fast_float::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

std::string without_commas(std::string_view s) {
  std::string out(s);
  out.erase(std::remove(out.begin(), out.end(), ','), out.end());
  return out;
}

// "2,400" and "1,250,000", not "24,00", "2,4000", "0,500" or ",500".
bool well_grouped(std::string_view s) {
  const std::size_t first = count_digits(s);
  if (first == 0 || first > 3 || s[0] == '0') return false;
  for (s.remove_prefix(first); !s.empty(); s.remove_prefix(4))
    if (s[0] != ',' || count_digits(s.substr(1)) != 3) return false;
  return true;
}

tl::unexpected<Refusal> refuse_comma() {
  return refuse("a comma only groups thousands",
                "write a point before decimals (24.5) and commas, if any, between thousands (2,400)");
}

// "1/3" at the front of `s`; length 0 if there is none.
Read<Number> read_fraction(std::string_view s) {
  const std::size_t top = count_digits(s);
  if (top == 0 || top >= s.size() || s[top] != '/') return Number{};
  const std::size_t bottom = count_digits(s.substr(top + 1));
  if (bottom == 0) return Number{};
  const double denominator = to_double(s.substr(top + 1, bottom));
  if (denominator == 0.0) return refuse("it divides by zero");
  return Number{to_double(s.substr(0, top)) / denominator, false, top + 1 + bottom};
}

// The fraction of "1 1/2" or "1-1/2", behind the whole number.
Read<Number> read_mixed_fraction(std::string_view s) {
  if (s.empty() || (!is_space(s[0]) && s[0] != '-')) return Number{};
  std::size_t gap = 1;
  while (gap < s.size() && is_space(s[gap])) ++gap;
  auto fraction = read_fraction(s.substr(gap));
  if (!fraction || fraction->length == 0) return fraction;
  if (fraction->value >= 1.0) return refuse("the fraction behind a whole number must be less than one");
  fraction->length += gap;
  return fraction;
}

Read<Number> read_decimal(std::string_view s, std::size_t whole_length) {
  const std::size_t decimals = count_digits(s.substr(whole_length + 1));
  const std::size_t length = whole_length + 1 + decimals;
  if (decimals == 0) return refuse("digits are missing behind the point");
  if (length < s.size() && s[length] == ',') return refuse_comma();
  if (length < s.size() && s[length] == '.') return refuse("it has two points");
  return Number{to_double(without_commas(s.substr(0, length))), false, length};
}

Read<Number> read_unscaled(std::string_view s) {
  const auto is_whole_part = [](char c) { return is_digit(c) || c == ','; };
  const auto length = static_cast<std::size_t>(std::find_if_not(s.begin(), s.end(), is_whole_part) - s.begin());
  const std::string_view whole = s.substr(0, length);
  const bool point = length < s.size() && s[length] == '.';
  if (whole.empty() && !point) return refuse("it does not start with a number");
  if (whole.find(',') != std::string_view::npos && !well_grouped(whole)) return refuse_comma();
  if (point) return read_decimal(s, length);
  const auto fraction = read_fraction(s);
  if (!fraction || fraction->length > 0) return fraction;
  const auto part = read_mixed_fraction(s.substr(length));
  if (!part) return part;
  return Number{to_double(without_commas(whole)) + part->value, part->length == 0, length + part->length};
}

bool starts_with_exponent(std::string_view s) {
  if (s.empty() || lower(s[0]) != 'e') return false;
  s.remove_prefix(1);
  if (!s.empty() && (s[0] == '+' || s[0] == '-')) s.remove_prefix(1);
  return !s.empty() && is_digit(s[0]);
}

}  // namespace

Read<Number> read_leading_number(std::string_view s) {
  if (!s.empty() && (s[0] == '-' || s[0] == '+')) return refuse("a sign has no meaning here");
  auto number = read_unscaled(s);
  if (number && starts_with_exponent(s.substr(number->length)))
    return refuse("exponents are not read", "write the figure out, for example 1,000 instead of 1e3");
  return number;
}

}  // namespace fogwright::text
