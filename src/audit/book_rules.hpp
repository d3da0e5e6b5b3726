// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Rules that only the whole book shows. One table (book_rules.cpp); each row judges by itself.

#include <functional>
#include <span>

#include "audit/charts.hpp"

namespace fogwright {

struct BookView {
  const Documents& documents;
  const AuditInput& input;
  const Charts& charts;
};

/// Hands over a departure; `rule` is filled in by whoever calls the judge.
using Found = std::function<void(Departure departure)>;

struct BookRule {
  DepartureRule rule;
  void (*judge)(const BookView& view, const Found& found);
};
[[nodiscard]] std::span<const BookRule> book_rules();

// chart_rules.cpp
void judge_use(const BookView& view, const Found& found);
void judge_counts(const BookView& view, const Found& found);
// job_rules.cpp
void judge_open_release(const BookView& view, const Found& found);
void judge_open_job(const BookView& view, const Found& found);
void judge_open_plan(const BookView& view, const Found& found);
// stock_rules.cpp
void judge_movements(const BookView& view, const Found& found);
void judge_expired_on_hand(const BookView& view, const Found& found);
void judge_storage_readings(const BookView& view, const Found& found);
// record_rules.cpp
void judge_record(const BookView& view, const Found& found);
void judge_unknown_kinds(const BookView& view, const Found& found);
void judge_erasures(const BookView& view, const Found& found);

}  // namespace fogwright
