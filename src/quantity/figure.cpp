// SPDX-License-Identifier: Apache-2.0
#include "quantity/figure.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace fogwright::text {
namespace {

constexpr double most_digits = 1e15;
constexpr int least_exponent = -290;  // smaller values print as the smallest figure; pow() stays finite

// Power of ten of the first digit of the value; 0 for zero.
int exponent_of(double value) {
  if (value == 0.0) return 0;
  return std::max(static_cast<int>(std::floor(std::log10(std::abs(value)))), least_exponent);
}

std::string grouped(std::string digits) {
  for (std::size_t at = digits.size(); at > 3; at -= 3) digits.insert(at - 3, 1, ',');
  return digits;
}

// `whole` counts steps of 10^-decimals.
std::string place_point(double whole, int decimals) {
  std::string digits = std::to_string(static_cast<std::int64_t>(std::abs(whole)));
  const auto behind = static_cast<std::size_t>(decimals);
  if (digits.size() <= behind) digits.insert(0, behind + 1 - digits.size(), '0');
  const std::size_t before = digits.size() - behind;
  const std::string tail = behind == 0 ? "" : "." + digits.substr(before);
  return (whole < 0 ? "-" : "") + grouped(digits.substr(0, before)) + tail;
}

std::string without_trailing_zeros(std::string figure) {
  if (figure.find('.') == std::string::npos) return figure;
  while (figure.back() == '0') figure.pop_back();
  if (figure.back() == '.') figure.pop_back();
  return figure;
}

// A figure whose last digits before the point are zeros: 12,345 with three digits is 12,300.
std::string coarse_figure(double value, int zeros, Rounding rounding) {
  const double whole = rounded(value / std::pow(10.0, zeros), rounding);
  const std::string digits = std::to_string(static_cast<std::int64_t>(std::abs(whole)));
  if (whole == 0.0) return "0";
  return (whole < 0 ? "-" : "") + grouped(digits + std::string(static_cast<std::size_t>(zeros), '0'));
}

}  // namespace

double rounded(double value, Rounding rounding) {
  const double noise = std::abs(value) * 1e-12 + 1e-9;
  if (rounding == Rounding::up) return std::ceil(value - noise);
  if (rounding == Rounding::down) return std::floor(value + noise);
  return std::round(value);
}

std::string fixed_figure(double value, int decimals, Rounding rounding) {
  const double steps = value * std::pow(10.0, decimals);
  if (!(std::abs(steps) < most_digits)) return std::string(out_of_range_figure);
  return place_point(rounded(steps, rounding), decimals);
}

std::string working_figure(double value, int digits, Rounding rounding) {
  if (!std::isfinite(value)) return std::string(out_of_range_figure);
  return without_trailing_zeros(fixed_figure(value, std::max(0, digits - 1 - exponent_of(value)), rounding));
}

}  // namespace fogwright::text

namespace fogwright {

std::string show_number(double value, int digits, Rounding rounding) {
  if (!std::isfinite(value)) return std::string(text::out_of_range_figure);
  const int zeros = text::exponent_of(value) + 1 - std::clamp(digits, 1, 15);
  if (zeros > 0) return text::coarse_figure(value, zeros, rounding);
  return text::without_trailing_zeros(text::fixed_figure(value, -zeros, rounding));
}

}  // namespace fogwright
