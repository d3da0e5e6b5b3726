// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "fogwright/desk/fold.hpp"

namespace fogwright {

using FoldPart = void (*)(const Entry& entry, MutableDocuments& documents);

/// Kinds and what folds them. Each group of kinds has its own file.
struct FoldRow {
  std::string_view kind;
  FoldPart part;
};
[[nodiscard]] std::span<const FoldRow> crew_fold();       // fold_crew.cpp
[[nodiscard]] std::span<const FoldRow> equipment_fold();  // fold_equipment.cpp: foggers, cartridges, labels
[[nodiscard]] std::span<const FoldRow> stock_fold();      // fold_stock.cpp
[[nodiscard]] std::span<const FoldRow> job_fold();        // fold_job.cpp

/// A key that sorts by sequence: twelve digits.
[[nodiscard]] std::string sequence_key(std::int64_t seq);

/// Sequence numbers of entries.
using Sequence = std::vector<std::int64_t>;
/// Adds the number of the entry that a part of a document comes from: the part itself, or its `seq`. Documents
/// that an earlier version made lack some.
void add_seq(Sequence& entries, const nlohmann::json& part);

/// Raises a departure on behalf of an entry. `rule` must stand in the table. `shown_by`: the earlier entries
/// that show it together with this one, in any order.
void raise(const Entry& entry, MutableDocuments& documents, std::string_view rule, std::string what,
           nlohmann::json about = nlohmann::json::object(), Sequence shown_by = {});

}  // namespace fogwright
