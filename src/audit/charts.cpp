// SPDX-License-Identifier: Apache-2.0
#include "audit/charts.hpp"

#include <algorithm>
#include <limits>
#include <optional>
#include <string_view>

namespace fogwright {
namespace {

constexpr const char* use_rows = "job-use";
constexpr const char* count_rows = "count";

std::optional<double> share(std::optional<std::int64_t> part, std::optional<std::int64_t> whole) {
  if (!part || !whole || *whole <= 0) return std::nullopt;
  return 100.0 * static_cast<double>(*part) / static_cast<double>(*whole);
}

/// By how much a row is off, in percent; nullopt where it lacks what that takes.
std::optional<double> off_percent(std::string_view kind, const Glance& row) {
  if (kind == count_rows) return share(row.integer("variance_ul"), row.integer("size_ul"));
  const auto used = row.integer("used_ul");
  const auto planned = row.integer("planned_ul");
  return used && planned ? share(*used - *planned, planned) : std::nullopt;
}

/// Calls `visit` for each chart that a row belongs to.
template <class Visit>
void each_subject(std::string_view kind, const Glance& row, Visit visit) {
  using Of = AuditChart::Of;
  if (kind == count_rows) return visit({Of::counts_of_product, row.text("product")});
  visit({Of::all_jobs, ""});
  visit({Of::technician, row.text("technician")});
  if (auto fogger = row.text("fogger"); !fogger.empty()) visit({Of::fogger, std::move(fogger)});
}

ChartPoint point_of(std::string_view kind, const Glance& row, double off) {
  return {row.integer("seq").value_or(0), row.integer("at_ms").value_or(0),
          row.text(kind == count_rows ? "of" : "job"), off};
}

/// Keeps the newest; the older half goes at once, so that adding stays cheap.
void keep_newest(std::vector<ChartPoint>& points, std::size_t at_most, std::size_t keep) {
  if (points.size() > at_most) points.erase(points.begin(), points.end() - static_cast<std::ptrdiff_t>(keep));
}

}  // namespace

std::string_view chart_name(AuditChart::Of of) noexcept {
  switch (of) {
    case AuditChart::Of::all_jobs:
      return "all jobs";
    case AuditChart::Of::technician:
      return "technician";
    case AuditChart::Of::fogger:
      return "fogger";
    case AuditChart::Of::counts_of_product:
      return "counts";
  }
  return "";
}

Charts::Charts(const Documents& documents) : documents_(documents) {
  read(use_rows);
  read(count_rows);
  finish();
}

void Charts::read(const char* kind) {
  documents_.each_text(kind, false, [&](std::string_view, std::string_view body) {
    const Glance row(body);
    const auto off = off_percent(kind, row);
    if (!off) return;
    const ChartPoint point = point_of(kind, row, *off);
    each_subject(kind, row, [&](const Subject& subject) { add(subject, point); });
  });
}

void Charts::add(const Subject& subject, const ChartPoint& point) {
  Growing& growing = charts_[subject];
  growing.limits.add(point.off_percent);
  growing.chart.points.push_back(point);
  keep_newest(growing.chart.points, 2 * chart_points, chart_points);
}

void Charts::finish() {
  for (auto& [subject, growing] : charts_) {
    AuditChart& chart = growing.chart;
    chart.of = subject.first;
    chart.name = subject.second;
    chart.count = static_cast<std::int64_t>(growing.limits.count());
    keep_newest(chart.points, chart_points, chart_points);
    if (chart.count < 2) continue;
    chart.limits = growing.limits.chart();
    for (std::size_t i = 0; i < chart.points.size(); ++i)
      if (beyond(chart.limits, chart.points[i].off_percent)) chart.limits.outside.push_back(i);
  }
}

std::vector<AuditChart> Charts::take() && {
  std::vector<AuditChart> charts;
  for (auto& [subject, growing] : charts_) charts.push_back(std::move(growing.chart));
  return charts;
}

void Charts::each_beyond(const char* kind, const Visit& visit) const {
  // What lies inside the narrowest limits lies beyond none: that is nearly every row.
  constexpr double infinite = std::numeric_limits<double>::infinity();
  double lower = -infinite, upper = infinite;
  for (const auto& [subject, growing] : charts_) {
    const ControlChart& limits = growing.chart.limits;
    if (!limits.enough_points || subject.first == AuditChart::Of::all_jobs) continue;
    lower = std::max(lower, limits.lower);
    upper = std::min(upper, limits.upper);
  }
  if (upper == infinite) return;
  documents_.each_text(kind, false, [&](std::string_view, std::string_view body) {
    const Glance row(body);
    const auto off = off_percent(kind, row);
    if (!off || (*off >= lower && *off <= upper)) return;
    std::vector<const AuditChart*> past;
    each_subject(kind, row, [&](const Subject& subject) {
      const auto found = charts_.find(subject);
      if (found != charts_.end() && subject.first != AuditChart::Of::all_jobs &&
          beyond(found->second.chart.limits, *off))
        past.push_back(&found->second.chart);
    });
    if (!past.empty()) visit(row, *off, past);
  });
}

void Charts::each_use_beyond(const Visit& visit) const { each_beyond(use_rows, visit); }
void Charts::each_count_beyond(const Visit& visit) const { each_beyond(count_rows, visit); }

}  // namespace fogwright
