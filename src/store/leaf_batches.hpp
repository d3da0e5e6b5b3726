// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "fogwright/book/sha256.hpp"
#include "fogwright/book/uuid.hpp"
#include "fogwright/book/verifier.hpp"
#include "store/book_tables.hpp"

namespace fogwright {

/// Some entries in a row, as they stand in the book.
struct LeafBatch {
  struct Row {
    std::int64_t seq;
    Uuid id;
    Hash hash;  // zeros if what is stored is no hash: no leaf has that one
    std::size_t begin, size;
  };
  std::vector<Row> rows;
  std::string bytes;  // of all leaves

  [[nodiscard]] std::string_view leaf(const Row& row) const {
    return std::string_view(bytes).substr(row.begin, row.size);
  }
  [[nodiscard]] std::vector<StoredLeaf> leaves() const;
};

/// Reads the entries in batches of a bounded number of entries and bytes, whatever the size of the book.
class LeafBatches {
 public:
  /// Precondition: the tables outlive it, and nobody else uses them meanwhile.
  LeafBatches(BookTables& book, std::int64_t end) : book_(book), end_(end) {}

  /// Fills a batch, whose memory is used again; empty at the end. A batch ends before a row whose number does
  /// not follow.
  void next(LeafBatch& batch);

  /// The number of the row at which reading stopped; at the end of the book, or before a gap.
  [[nodiscard]] std::int64_t stopped_at() const { return expected_; }

 private:
  BookTables& book_;
  std::int64_t end_;
  std::int64_t expected_ = 0;
};

}  // namespace fogwright
