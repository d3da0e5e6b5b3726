// SPDX-License-Identifier: Apache-2.0
#include "paper/scale.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace fogwright::paper {
namespace {

/// 1, 2 or 5 times a power of ten, so that about `wanted` steps cover the width.
double round_step(double width, int wanted) {
  const double rough = width / wanted;
  const double decade = std::pow(10, std::floor(std::log10(rough)));
  for (const double factor : {1.0, 2.0, 5.0})
    if (rough <= factor * decade) return factor * decade;
  return 10 * decade;
}

std::vector<double> all_y(const Chart& chart) {
  std::vector<double> values;
  for (const auto& series : chart.series)
    for (const auto& point : series.points)
      if (drawable(point)) values.push_back(point.y);
  for (const auto& level : chart.levels)
    if (std::isfinite(level.y)) values.push_back(level.y);
  for (const auto& bar : chart.bars)
    if (std::isfinite(bar.value)) values.push_back(bar.value);
  return values;
}

/// From the least value above zero to the greatest, in whole decades; at most six of them.
Scale decades(const std::vector<double>& values) {
  double low = 1, high = 1;
  bool any = false;
  for (const double value : values) {
    if (value <= 0) continue;
    low = any ? std::min(low, value) : value;
    high = any ? std::max(high, value) : value;
    any = true;
  }
  high = std::pow(10, std::ceil(std::log10(high) + 0.02));
  low = std::max(std::pow(10, std::floor(std::log10(low) - 0.02)), high / 1e6);
  return {low, high, true};
}

}  // namespace

double Scale::at(double value) const {
  if (!logarithmic) return (value - low) / (high - low);
  return std::max(0.0, std::log(std::max(value, low) / low) / std::log(high / low));
}

std::vector<double> Scale::round_values(int wanted) const {
  std::vector<double> values;
  if (logarithmic) {
    for (double value = low; value <= high * 1.001; value *= 10) values.push_back(value);
    return values;
  }
  const double step = std::max(round_step(high - low, wanted), counts ? 1.0 : 0.0);
  const auto last = std::llround(std::floor(high / step + 1e-9));
  for (auto i = std::llround(std::ceil(low / step - 1e-9)); i <= last; ++i)
    values.push_back(static_cast<double>(i) * step);
  return values;
}

Scale x_scale(const Chart& chart) {
  std::vector<double> values;
  for (const auto& series : chart.series)
    for (const auto& point : series.points)
      if (drawable(point)) values.push_back(point.x);
  for (const auto& mark : chart.marks)
    if (std::isfinite(mark.x)) values.push_back(mark.x);
  if (values.empty()) return {};
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  return {*low, *high > *low ? *high : *low + 1, false};
}

Scale y_scale(const Chart& chart) {
  auto values = all_y(chart);
  if (chart.log_y) return decades(values);
  values.push_back(0);
  const auto [low, high] = std::minmax_element(values.begin(), values.end());
  if (*high <= *low) return {0, 1, false};
  const double room = 0.08 * (*high - *low);
  return {*low < 0 ? *low - room : 0, *high > 0 ? *high + room : 0, false, !chart.bars.empty()};
}

bool drawable(const ChartPoint& point) { return std::isfinite(point.x) && std::isfinite(point.y); }

std::string short_number(double value) {
  if (value == 0) return "0";
  const int whole = static_cast<int>(std::floor(std::log10(std::abs(value)))) + 1;
  std::string text = fmt::format("{:.{}f}", value, std::clamp(4 - whole, 0, 9));
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

}  // namespace fogwright::paper
