// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <vector>

#include "fogwright/store.hpp"
#include "store/sql_documents.hpp"

namespace fogwright {

/// Documents derived anew, to be held against those that a book keeps. They live in a temporary file of this
/// machine that goes with them, whatever database holds the book: memory does not grow with them.
class FreshDocuments {
 public:
  FreshDocuments();
  FreshDocuments(const FreshDocuments&) = delete;
  FreshDocuments& operator=(const FreshDocuments&) = delete;

  [[nodiscard]] MutableDocuments& documents() { return documents_; }

  /// Counts the documents of the book that differ, are missing or should not be there, and adds the first 100
  /// to `differing`.
  [[nodiscard]] std::int64_t compare(BookTables& book, std::vector<std::string>& differing);
  /// Puts right what compare() found. Inside a transaction of the book.
  void mend(BookTables& book);

 private:
  sqlite::Connection connection_;
  SqlDocuments documents_;
};

/// Derives the documents of a book anew from all its entries, names those that differ and puts them right;
/// returns how many. Inside a transaction of the book. Throws StorageFault (bad_book) if an entry cannot be
/// read.
[[nodiscard]] std::int64_t rebuild_documents(BookTables& book, const std::string& origin, Fold fold,
                                             std::vector<std::string>& differing, const Progress& progress);

}  // namespace fogwright
