// SPDX-License-Identifier: Apache-2.0
#pragma once

/// How long records must be kept. Entries of a book are never deleted; what can be disposed of are the private
/// bytes beside it (a customer's name and address, a person's details), papers and backups. docs/audit.md says
/// where the periods come from.

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/book/documents.hpp"
#include "fogwright/error.hpp"
#include "fogwright/quantity.hpp"

namespace fogwright {

/// From when a period runs.
enum class KeptFrom { use, end_of_employment, next_of_its_kind, while_in_use };

struct RetentionRule {
  std::string_view id;    ///< "exposure", "medical", ...
  std::string_view what;  ///< which records
  std::string_view keep;  ///< in words
  int years = 0;          ///< with KeptFrom::use and end_of_employment
  KeptFrom from{};
  Basis kind{};
  std::string_view citation;
  std::string_view remark;  ///< how sure that is; may be empty
};
[[nodiscard]] std::span<const RetentionRule> retention_rules();

/// What a book holds under one rule.
struct RetentionLine {
  const RetentionRule* rule = nullptr;
  std::int64_t count = 0;
  std::int64_t over = 0;  ///< of them past their time
  std::optional<std::int64_t> oldest_ms, newest_ms;
  std::optional<std::int64_t> next_over_ms;  ///< when the next one is past its time; nullopt: not known
};
/// One line a rule, in the order of the table. Reads jobs and crew once.
[[nodiscard]] std::vector<RetentionLine> retention(const Documents& documents, std::int64_t now_ms);

/// Why something may not be disposed of yet.
struct RetentionHold {
  const RetentionRule* rule = nullptr;
  std::string what;                      ///< one sentence
  std::optional<std::int64_t> until_ms;  ///< nullopt: no end is known yet
};
/// The customer's name and address of a job, and what the job shows of exposure. Empty: nothing known here asks
/// for it any more. Errors: not_found.
[[nodiscard]] Result<std::vector<RetentionHold>> retention_of_job(const Documents& documents,
                                                                  const std::string& job, std::int64_t now_ms);
/// A person's details and papers. Errors: not_found.
[[nodiscard]] Result<std::vector<RetentionHold>> retention_of_person(const Documents& documents,
                                                                     const std::string& handle,
                                                                     std::int64_t now_ms);

[[nodiscard]] nlohmann::json retention_json(const std::vector<RetentionLine>& lines);
[[nodiscard]] nlohmann::json retention_json(const std::vector<RetentionHold>& holds);

}  // namespace fogwright
