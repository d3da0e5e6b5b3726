// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string>

#include "store/appender.hpp"
#include "store/audit.hpp"

namespace fogwright {

/// What every store does in the same way, whatever database holds its tables: the life of an entry, the tree,
/// what stands beside the record. A kind of store adds how it reads, how it writes under the writers' lock, and
/// how it finds out what became of a commit that failed. For one thread at a time.
class BookStore : public Store, public PrivateRecords {
 public:
  [[nodiscard]] std::string origin() const final { return origin_; }
  [[nodiscard]] Head head() final;
  Result<std::vector<Receipt>> append(const Decide& decide) final;
  [[nodiscard]] tl::expected<std::int64_t, Faults> import_from(const ImportSource& source,
                                                               const Progress& progress) final;
  void read(const std::function<void(const Documents& now, const Head& head)>& use) final;
  void each_leaf(std::int64_t from, std::int64_t to,
                 const std::function<void(std::int64_t seq, std::string_view leaf)>& visit) final;
  [[nodiscard]] std::optional<Entry> entry(std::int64_t seq) final;
  [[nodiscard]] std::optional<std::int64_t> find(const Uuid& id) final;
  [[nodiscard]] std::optional<Hash> node(std::int64_t level, std::int64_t index) final;
  void add_checkpoint(std::int64_t size, std::string_view note) final;
  [[nodiscard]] std::vector<std::pair<std::int64_t, std::string>> checkpoints() final;
  void keep_private(std::string_view hash_hex, std::string_view salt, std::string_view bytes) final;
  [[nodiscard]] std::optional<std::string> private_bytes(std::string_view hash_hex) final;
  [[nodiscard]] std::optional<PrivateRecord> private_record(std::string_view hash_hex) final;
  void each_private(const std::function<void(const PrivateBytes& kept)>& visit) final;
  bool erase_private(std::string_view hash_hex) final;
  [[nodiscard]] Verification verify(std::string_view trusted_vkey, VerifyDepth depth,
                                    const Progress& progress) final;
  std::int64_t rebuild(std::vector<std::string>& differing, const Progress& progress) final;

 protected:
  using Work = std::function<bool(BookTables& tables)>;

  BookStore(Fold fold, Clock clock) : fold_(fold), clock_(std::move(clock)) {}

  /// The book as errors name it.
  [[nodiscard]] virtual std::string place() const = 0;
  /// For reading a single thing.
  [[nodiscard]] virtual BookTables& seen() = 0;
  /// One moment of the book; within another call of it, the same moment.
  virtual void look(const std::function<void(BookTables& tables)>& use) = 0;
  /// One transaction under the writers' lock: begins it, calls begin_work(), does the work, calls
  /// about_to_commit() and commits if the work says so. Throws storage_busy if others hold the lock too long.
  virtual void transact(const Work& work) = 0;
  /// Holds the writers' lock, as far as it is a thing of its own, over several transactions while it lives.
  [[nodiscard]] virtual std::shared_ptr<void> hold() = 0;
  /// After a commit that failed: true if the entries turn out to be there, finally and durably.
  [[nodiscard]] virtual bool made_it(const std::vector<Receipt>& receipts) = 0;
  /// Whether a commit that failed may still turn out either way.
  [[nodiscard]] virtual bool in_doubt() const = 0;
  /// Private bytes were erased, and the transaction is committed.
  virtual void erased() {}
  [[nodiscard]] virtual std::unique_ptr<AuditedBook> audited() = 0;

  /// The state moves only forward: a book that has lost entries is refused until it is opened again.
  void begin_work(BookTables& tables);
  void about_to_commit() { commit_tried_ = true; }
  [[nodiscard]] static bool all_there(const std::vector<Receipt>& receipts, BookTables& tables);

  std::string origin_;
  Fold fold_;
  Clock clock_;

 private:
  /// transact(), or within another one a part of that.
  void write(const Work& work);
  Result<std::vector<Receipt>> append_all(Appender& appender, const Decide& decide, const Documents& documents);
  Result<std::vector<Receipt>> append_under_lock(const Decide& decide);
  [[nodiscard]] StorageFault outcome_of(const StorageFault& fault) const;
  [[nodiscard]] Head head_of(BookTables& tables);
  [[nodiscard]] Appender::Place appending(BookTables& tables) const { return {tables, origin_, fold_}; }

  TreeState state_;  // as of the last commit seen
  BookTables* writing_ = nullptr;
  bool commit_tried_ = false;
};

}  // namespace fogwright
