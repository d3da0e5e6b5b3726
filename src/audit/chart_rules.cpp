// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "audit/book_rules.hpp"

namespace fogwright {
namespace {

std::string limits_words(const AuditChart& chart) {
  return fmt::format("{} {} ({:.1f} to {:.1f} %, {} points)", chart_name(chart.of), chart.name,
                     chart.limits.lower, chart.limits.upper, chart.count);
}

std::string beyond_words(const std::vector<const AuditChart*>& charts) {
  std::string words;
  for (const AuditChart* chart : charts) words += (words.empty() ? "" : " and ") + limits_words(*chart);
  return words;
}

Departure departure_of(const Glance& row) {
  Departure departure;
  departure.entries = {row.integer("seq").value_or(0)};
  departure.at_ms = row.integer("at_ms").value_or(0);
  departure.product = row.text("product");
  return departure;
}

}  // namespace

void judge_use(const BookView& view, const Found& found) {
  view.charts.each_use_beyond([&](const Glance& row, double off, const std::vector<const AuditChart*>& beyond) {
    Departure departure = departure_of(row);
    departure.job = row.text("job");
    departure.person = row.text("technician");
    departure.place = row.text("van");
    departure.what = fmt::format("{} used {:+.1f} % against its plan, beyond the limits of {}", departure.job,
                                 off, beyond_words(beyond));
    found(std::move(departure));
  });
}

void judge_counts(const BookView& view, const Found& found) {
  view.charts.each_count_beyond([&](const Glance& row, double off,
                                    const std::vector<const AuditChart*>& beyond) {
    Departure departure = departure_of(row);
    departure.person = row.text("by");
    departure.place = row.text("place");
    departure.what = fmt::format("the count of {} is off by {:+.1f} % of the vessel, beyond the limits of {}",
                                 row.text("of"), off, beyond_words(beyond));
    found(std::move(departure));
  });
}

}  // namespace fogwright
