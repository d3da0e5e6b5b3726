// SPDX-License-Identifier: Apache-2.0
#pragma once

/// For each rule a book that breaks it and one that nearly does. The test of the table fails where a rule has
/// none.

#include <functional>
#include <string_view>
#include <vector>

#include "desk/job_world.hpp"
#include "fogwright/audit/audit.hpp"

namespace audit_test {

using namespace fogwright;
using desk_test::JobWorld;
using desk_test::Shop;

/// A book, and what the audit is handed beside it.
struct Book {
  Book(const Shop& shop) : documents(shop.book()), now_ms(shop.now()) {}  // NOLINT: meant to convert
  Book(const JobWorld& world) : Book(world.shop) {}                       // NOLINT: meant to convert

  MapDocuments documents;
  std::int64_t now_ms = 0;
  RecordCheck record = {};

  [[nodiscard]] AuditAnswer audit(const AuditScope& scope = {}) const {
    return fogwright::audit(documents, {0, now_ms, record}, scope);
  }
  /// Ids of the rules that were broken, each once.
  [[nodiscard]] std::vector<std::string_view> broken() const;
};

struct RulePair {
  std::string_view rule;
  std::function<Book()> trips, nearly;
};

[[nodiscard]] std::vector<RulePair> entry_pairs();  // clocks, corrections, crew, equipment, labels
[[nodiscard]] std::vector<RulePair> stock_pairs();
[[nodiscard]] std::vector<RulePair> job_pairs();
[[nodiscard]] std::vector<RulePair> book_pairs();  // what only the whole book shows

/// A job up to its fog-off, every item so far met.
[[nodiscard]] JobWorld holding(const std::string& product = "fenmist-rtu");
/// How long its hold runs.
[[nodiscard]] std::int64_t hold_ms(const JobWorld& world, const char* which = "total");
void release(JobWorld& world);
void close(JobWorld& world);
/// An entry as another program may have written it: no desk stands in between.
void write_start(JobWorld& world);
void write_release(JobWorld& world, const char* ground = "time");
/// As write_release; nobody has aired out, nor looked for haze.
void write_bare_release(JobWorld& world, const char* ground = "time");

}  // namespace audit_test
