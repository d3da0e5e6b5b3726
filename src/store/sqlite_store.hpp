// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string>

#include "fogwright/store.hpp"
#include "store/appender.hpp"
#include "store/lock_file.hpp"
#include "store/private_records.hpp"
#include "store/session.hpp"

namespace fogwright {

/// A book in an SQLite file. For one thread at a time; other processes and other stores may use the same file.
class SqliteStore final : public Store, public PrivateRecords {
 public:
  /// Opens a book that exists and takes the steps its tables lack. Throws StorageFault.
  SqliteStore(std::string path, Fold fold, Clock clock, const SqliteOptions& options);
  SqliteStore(const SqliteStore&) = delete;
  SqliteStore& operator=(const SqliteStore&) = delete;
  ~SqliteStore() override;

  [[nodiscard]] std::string origin() const override { return origin_; }
  [[nodiscard]] Head head() override;
  Result<std::vector<Receipt>> append(const Decide& decide) override;
  [[nodiscard]] tl::expected<std::int64_t, Faults> import_lines(std::string_view lines, std::string_view file,
                                                                const Progress& progress) override;
  void read(const std::function<void(const Documents& now, const Head& head)>& use) override;
  void each_leaf(std::int64_t from, std::int64_t to,
                 const std::function<void(std::int64_t seq, std::string_view leaf)>& visit) override;
  [[nodiscard]] std::optional<Entry> entry(std::int64_t seq) override;
  [[nodiscard]] std::optional<std::int64_t> find(const Uuid& id) override;
  [[nodiscard]] std::optional<Hash> node(std::int64_t level, std::int64_t index) override;
  void add_checkpoint(std::int64_t size, std::string_view note) override;
  [[nodiscard]] std::vector<std::pair<std::int64_t, std::string>> checkpoints() override;
  void keep_private(std::string_view hash_hex, std::string_view salt, std::string_view bytes) override;
  [[nodiscard]] std::optional<std::string> private_bytes(std::string_view hash_hex) override;
  [[nodiscard]] std::optional<PrivateRecord> private_record(std::string_view hash_hex) override;
  bool erase_private(std::string_view hash_hex) override;
  [[nodiscard]] Verification verify(std::string_view trusted_vkey, VerifyDepth depth,
                                    const Progress& progress) override;
  std::int64_t rebuild(std::vector<std::string>& differing, const Progress& progress) override;
  void backup_to(const std::string& path, const Progress& progress) override;

 private:
  /// One transaction under the writers' lock, committed if `work` says so; inside another one it is part of
  /// that.
  void write(const std::function<bool(Session&)>& work);
  Result<std::vector<Receipt>> append_all(Appender& appender, const Decide& decide, const Documents& documents);
  /// After a commit that failed: the receipts if the entries turn out to be there and durable, else none.
  bool made_it(const std::vector<Receipt>& receipts);
  [[nodiscard]] StorageFault outcome_of(const StorageFault& fault) const;
  void reopen() noexcept;
  void empty_log();
  void checkpoint_if_long() noexcept;
  void catch_up_for_writing();
  [[nodiscard]] Head head_seen();
  Session& session();

  std::string path_;
  Fold fold_;
  Clock clock_;
  SqliteOptions options_;
  std::string origin_;
  std::optional<LockFile> lock_;      // made once the file is known to be a book
  std::unique_ptr<Session> session_;  // none: a fault could not be resolved
  TreeState state_;                   // as of the last commit seen
  bool writing_ = false;
  bool commit_tried_ = false;
};

}  // namespace fogwright
