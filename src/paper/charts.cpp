// SPDX-License-Identifier: Apache-2.0
/// The charts of the trade.

#include <algorithm>
#include <cmath>

#include "fogwright/paper/chart.hpp"
#include "paper/moment.hpp"
#include "paper/scale.hpp"
#include "paper/words.hpp"

namespace fogwright::paper {
namespace {

double highest(const std::vector<ChartSeries>& all) {
  double peak = 0;
  for (const auto& series : all)
    for (const auto& point : series.points)
      if (drawable(point)) peak = std::max(peak, point.y);
  return peak;
}

/// Whether the lowest limit would lie on the floor of a linear scale.
bool needs_logarithm(double peak, const std::vector<ChartLevel>& limits) {
  return std::any_of(limits.begin(), limits.end(),
                     [&](const auto& limit) { return limit.y > 0 && peak > 12 * limit.y; });
}

/// At most eight dates, the first and the last among them.
std::vector<ChartTick> date_ticks(const std::vector<ChartTick>& days) {
  constexpr std::size_t wanted = 7;
  if (days.size() <= wanted) return days;
  std::vector<ChartTick> ticks;
  for (std::size_t i = 0; i < wanted; ++i) ticks.push_back(days[i * (days.size() - 1) / (wanted - 1)]);
  return ticks;
}

}  // namespace

Chart concentration_chart(const ConcentrationCurve& curve, Language language) {
  const double peak = highest(curve.releases);
  Chart chart;
  chart.title = word(language, Word::concentration_title, curve.substance);
  chart.x_title = word(language, Word::minutes);
  chart.log_y = needs_logarithm(peak, curve.limits);
  chart.y_title = word(language, Word::mg_m3);
  if (chart.log_y) chart.y_title = word(language, Word::log_scale, chart.y_title);
  chart.summary = word(language, Word::concentration_summary, short_number(peak));
  chart.series = curve.releases;
  chart.levels = curve.limits;
  if (curve.hold_minutes > 0) chart.marks = {{word(language, Word::hold_end), curve.hold_minutes}};
  return chart;
}

Chart stock_chart(const StockCurve& curve, Language language) {
  Chart chart;
  chart.title = word(language, Word::stock_title, curve.item);
  chart.y_title = curve.unit;
  ChartSeries stock{word(language, Word::on_hand), Look::steps, {}};
  std::vector<ChartTick> days;
  for (const auto& [date, amount] : curve.days)
    if (const auto day = day_number(date)) {
      stock.points.push_back({static_cast<double>(*day), amount});
      days.push_back({static_cast<double>(*day), date});
    }
  if (!days.empty())
    chart.summary =
        word(language, Word::stock_summary, short_number(stock.points.back().y), curve.unit, days.back().label);
  chart.x_ticks = date_ticks(days);
  chart.series = {std::move(stock)};
  if (curve.reorder_point) chart.levels = {{word(language, Word::reorder_point), *curve.reorder_point}};
  return chart;
}

Chart use_chart(std::span<const double> off_by_percent, const ControlChart& limits, Language language) {
  Chart chart;
  chart.title = word(language, Word::use_title);
  chart.x_title = word(language, Word::jobs_in_order);
  chart.y_title = word(language, Word::percent);
  ChartSeries jobs{word(language, Word::job), Look::dots, {}};
  for (std::size_t i = 0; i < off_by_percent.size(); ++i)
    jobs.points.push_back({static_cast<double>(i + 1), off_by_percent[i]});
  for (const std::size_t i : limits.outside)
    if (i < jobs.points.size()) chart.flagged.push_back(jobs.points[i]);
  chart.flag_name = word(language, Word::outside);
  chart.summary = limits.enough_points
                      ? word(language, Word::use_summary, chart.flagged.size(), off_by_percent.size())
                      : word(language, Word::too_few_points, off_by_percent.size());
  chart.levels = {{word(language, Word::upper_limit), limits.upper},
                  {word(language, Word::mean), limits.centre},
                  {word(language, Word::lower_limit), limits.lower}};
  chart.series = {std::move(jobs)};
  return chart;
}

Chart departures_chart(std::span<const std::pair<std::string, int>> by_month, Language language) {
  Chart chart;
  chart.title = word(language, Word::departures_by_month);
  chart.y_title = word(language, Word::departures_count);
  int total = 0;
  for (const auto& [month, count] : by_month) {
    chart.bars.push_back({month, static_cast<double>(count)});
    total += count;
  }
  chart.summary = word(language, Word::months_summary, total, by_month.size());
  return chart;
}

}  // namespace fogwright::paper
