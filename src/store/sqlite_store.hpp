// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string>

#include "store/book_store.hpp"
#include "store/lock_file.hpp"
#include "store/session.hpp"

namespace fogwright {

/// A book in an SQLite file. Other processes and other stores may use the same file.
class SqliteStore final : public BookStore {
 public:
  /// Opens a book that exists and takes the steps its tables lack. Throws StorageFault.
  SqliteStore(std::string path, Fold fold, Clock clock, const SqliteOptions& options);
  SqliteStore(const SqliteStore&) = delete;
  SqliteStore& operator=(const SqliteStore&) = delete;
  ~SqliteStore() override;

  void backup_to(const std::string& path, const Progress& progress) override;

 private:
  [[nodiscard]] std::string place() const override { return path_; }
  [[nodiscard]] BookTables& seen() override { return session().seen; }
  void look(const std::function<void(BookTables& tables)>& use) override;
  void transact(const Work& work) override;
  [[nodiscard]] std::shared_ptr<void> hold() override;
  [[nodiscard]] bool made_it(const std::vector<Receipt>& receipts) override;
  [[nodiscard]] bool in_doubt() const override { return session_ == nullptr; }
  void erased() override;
  [[nodiscard]] std::unique_ptr<AuditedBook> audited() override;

  void reopen() noexcept;
  void checkpoint_if_long() noexcept;
  Session& session();

  std::string path_;
  SqliteOptions options_;
  std::optional<LockFile> lock_;      // made once the file is known to be a book
  std::unique_ptr<Session> session_;  // none: a fault could not be resolved
};

/// One moment of the book file, to be verified.
[[nodiscard]] std::unique_ptr<AuditedBook> audited_file(const std::string& path, const SqliteOptions& options);

}  // namespace fogwright
