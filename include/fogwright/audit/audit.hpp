// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The safety officer's audit: what in a book departs from its rules. Pure: it reads documents; what the store
/// found in the record itself is handed in. docs/audit.md, docs/departures.md.

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "fogwright/desk/fold.hpp"
#include "fogwright/stock.hpp"

namespace fogwright {

/// Every rule that the audit knows: those that the fold raises entry by entry (departure_rules()), those that
/// only the whole book shows, and the integrity of the record.
[[nodiscard]] std::span<const DepartureRule* const> audit_rules();
[[nodiscard]] const DepartureRule* find_audit_rule(std::string_view id);
/// "label", "regulation", "company policy", "common practice".
[[nodiscard]] std::string_view rule_kind_name(Basis kind) noexcept;

/// What is looked at. Empty or nullopt: everything.
struct AuditScope {
  std::optional<std::int64_t> from_ms;      ///< happened at or after
  std::optional<std::int64_t> to_ms;        ///< happened before
  std::string person, product, place, job;  ///< `place`: a van or a shop
  std::string rule;                         ///< id
  Severity least = Severity::note;          ///< this and worse
  std::size_t most = 1'000;  ///< departures listed of each severity; 0: all. Counts are never cut
};

/// One departure. Members that do not apply are empty.
struct Departure {
  const DepartureRule* rule = nullptr;  ///< never nullptr
  std::string what;                     ///< one sentence without its full stop
  std::vector<std::int64_t> entries;  ///< sequence numbers of those that prove it; the one that raised it first
  std::int64_t at_ms = 0;             ///< when it happened, UTC
  std::string job, person, product, place;
};

/// Planned against used, job by job, or counts, of one technician, fogger or product.
struct ChartPoint {
  std::int64_t seq = 0, at_ms = 0;
  std::string of;          ///< job or vessel
  double off_percent = 0;  ///< used less planned, of planned; found less expected, of the vessel
};
struct AuditChart {
  enum class Of { all_jobs, technician, fogger, counts_of_product };
  Of of{};
  std::string name;  ///< handle, fogger or product; empty for all_jobs
  std::int64_t count = 0;
  ControlChart limits;             ///< over all its points in the book; `outside` are indices into `points`
  std::vector<ChartPoint> points;  ///< the newest, at most `chart_points`, oldest first
};
inline constexpr std::size_t chart_points = 60;
[[nodiscard]] std::string_view chart_name(AuditChart::Of of) noexcept;  ///< "technician", ...

/// What the store found in the record itself.
struct RecordFinding {
  std::optional<std::int64_t> seq;
  std::string what;
};
struct RecordCheck {
  bool done = false;  ///< false: the record was not verified
  std::vector<RecordFinding> findings;
  std::vector<std::string> checkpoints;  ///< how each stored checkpoint fares
};

struct AuditAnswer {
  AuditScope scope;
  std::int64_t entries = 0;                                            ///< in the book
  std::int64_t jobs_measured = 0;                                      ///< in the book: whose use was measured
  std::array<std::int64_t, 4> by_severity{};                           ///< by Severity; note first
  std::vector<std::pair<std::string, std::int64_t>> by_month;          ///< "2026-03"; UTC
  std::vector<std::pair<const DepartureRule*, std::int64_t>> by_rule;  ///< gravest first, then most often
  std::vector<Departure> departures;  ///< gravest first, then in the order of the book
  std::int64_t left_out = 0;          ///< counted but not listed
  std::vector<AuditChart> charts;
  RecordCheck record;

  [[nodiscard]] std::int64_t total() const;
};

/// What the audit stands on besides the documents.
struct AuditInput {
  std::int64_t entries = 0;  ///< size of the book
  std::int64_t now_ms = 0;   ///< UTC
  RecordCheck record;
};
/// Reads the documents once or twice, kind by kind; holds what it lists, never the book.
[[nodiscard]] AuditAnswer audit(const Documents& documents, const AuditInput& input, const AuditScope& scope);

[[nodiscard]] nlohmann::json audit_json(const AuditAnswer& answer);
[[nodiscard]] nlohmann::json audit_rules_json();

}  // namespace fogwright
