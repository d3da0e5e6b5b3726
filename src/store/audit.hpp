// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/store.hpp"
#include "store/book_tables.hpp"

namespace fogwright {

inline constexpr std::size_t most_findings = 100;

/// One moment of a book, to be verified, over connections of its own.
class AuditedBook {
 public:
  AuditedBook() = default;
  AuditedBook(const AuditedBook&) = delete;
  AuditedBook& operator=(const AuditedBook&) = delete;
  virtual ~AuditedBook() = default;

  [[nodiscard]] virtual BookTables& tables() = 0;
  /// The same book over a connection of its own, for another thread. It may see later entries.
  [[nodiscard]] virtual std::shared_ptr<BookTables> another() = 0;
  /// Tables, triggers and rights against those that this program makes.
  virtual void check_tables(std::vector<Finding>& findings) = 0;
  /// What the database itself can say of its files.
  virtual void check_files(std::vector<Finding>& findings) = 0;
};

struct AuditOptions {
  std::string_view trusted_vkey;
  VerifyDepth depth = VerifyDepth::all;
  Fold fold = nullptr;
};

/// Store::verify. Throws StorageFault if the book cannot be read.
[[nodiscard]] Verification audit_book(AuditedBook& book, const std::string& origin, const AuditOptions& options,
                                      const Progress& progress);

}  // namespace fogwright
