// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <mutex>
#include <vector>

#include "fogwright/book/verifier.hpp"
#include "store/audit.hpp"

namespace fogwright {

/// Reads and hashes the record from the first entry on, on as many threads as there are readers, each over a
/// connection of its own: a leaf is hashed where the database gave it, without a copy. Entries below `size`
/// never change, so the connections need not share a snapshot. Memory does not grow with the book.
class RecordScan {
 public:
  RecordScan(AuditedBook& book, std::int64_t size, BookVerifier& verifier, unsigned threads);

  /// Throws StorageFault if the book cannot be read.
  void run(const Progress& progress);

  /// The number of the row at which reading stopped: the size, or that of a missing entry.
  [[nodiscard]] std::int64_t stopped_at() const { return stopped_at_; }

 private:
  /// A stretch of entries that one reader takes at once.
  struct Stretch {
    HashedLeaves leaves;
    std::int64_t next, end;
    std::exception_ptr fault{};
  };

  [[nodiscard]] std::vector<Stretch> next_stretches() const;
  void read(Stretch& stretch);
  static void read(Stretch& stretch, BookTables& tables);
  BookTables& take_reader();
  void give_back(BookTables& reader);

  BookVerifier& verifier_;
  std::int64_t size_, stopped_at_ = 0;
  std::vector<std::shared_ptr<BookTables>> readers_;
  std::mutex mutex_;  // of idle_
  std::vector<BookTables*> idle_;
};

}  // namespace fogwright
