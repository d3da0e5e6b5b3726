// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Where a book is kept. One narrow interface; SQLite implements it in a file, PostgreSQL will for a fleet.
///
/// The life of an entry: the caller's `decide` sees the documents as they are under the writers' lock and hands
/// back new entries; the store gives each its sequence number and time of receipt, writes the leaf bytes, the
/// tree nodes and the folded documents in one transaction, and returns only after the bytes are durable. A
/// failed commit is in doubt: the store reopens, reads the head and lets the ids decide; until that has
/// succeeded nothing is acknowledged.

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/book/documents.hpp"
#include "fogwright/book/entry.hpp"
#include "fogwright/book/merkle.hpp"
#include "fogwright/book/new_entry.hpp"
#include "fogwright/error.hpp"

namespace fogwright {

struct Receipt {
  std::int64_t seq = 0;
  Uuid id;
  bool already_there = false;  ///< the same id was appended before: nothing was written again
};

struct Head {
  std::int64_t size = 0;
  Hash root{};
  std::int64_t last_received_ms = 0;
};

/// Brings the documents up to date with one entry. Pure: the same entries give the same documents everywhere.
using Fold = void (*)(const Entry& entry, MutableDocuments& documents);

/// The outside world of a store, so that tests can set the time.
using Clock = std::function<std::int64_t()>;  ///< UTC milliseconds

using Decide = std::function<Result<std::vector<NewEntry>>(const Documents& now, const Head& head)>;

/// A finding of verify(): the entry it concerns and what is wrong.
struct Finding {
  std::optional<std::int64_t> seq;
  std::string what;
};

struct Verification {
  Head head;
  std::vector<Finding> findings;         ///< empty: all is as it was written
  std::vector<std::string> checkpoints;  ///< how each stored checkpoint fares, newest last
};

/// How much of a book verify() looks at.
enum class VerifyDepth {
  record,  ///< bytes, order, tree, nodes, checkpoints: finds every changed byte of the record, at the speed of
           ///< hashing
  all,     ///< also the text of each entry, its id, the documents, private bytes and the file's own structure
};

using Progress = std::function<void(std::int64_t done, std::int64_t total)>;

class Store {
 public:
  virtual ~Store() = default;

  [[nodiscard]] virtual std::string origin() const = 0;
  [[nodiscard]] virtual Head head() = 0;

  /// All or nothing. Errors: whatever `decide` refuses with; bad_entry; storage_busy. Storage faults throw
  /// StorageFault.
  virtual Result<std::vector<Receipt>> append(const Decide& decide) = 0;

  /// Takes in an export of this very book: JSON Lines, one entry's exact bytes a line, in order. What the book
  /// has already must be there byte for byte; the rest is appended as it is, with the time of receipt that it
  /// carries. All or nothing; returns how many entries were new. Faults: bad_import with "file:line", each line
  /// that has one.
  [[nodiscard]] virtual tl::expected<std::int64_t, Faults> import_lines(std::string_view lines,
                                                                        std::string_view file,
                                                                        const Progress& progress) = 0;

  /// A consistent view for reading; stays as it is while others write.
  virtual void read(const std::function<void(const Documents& now, const Head& head)>& use) = 0;

  /// Exact leaf bytes of entries [from, to) in order.
  virtual void each_leaf(std::int64_t from, std::int64_t to,
                         const std::function<void(std::int64_t seq, std::string_view leaf)>& visit) = 0;
  [[nodiscard]] virtual std::optional<Entry> entry(std::int64_t seq) = 0;
  [[nodiscard]] virtual std::optional<std::int64_t> find(const Uuid& id) = 0;
  /// Hash of a complete subtree, for proofs.
  [[nodiscard]] virtual std::optional<Hash> node(std::int64_t level, std::int64_t index) = 0;

  /// Signed checkpoints, oldest first; one a size.
  virtual void add_checkpoint(std::int64_t size, std::string_view note) = 0;
  [[nodiscard]] virtual std::vector<std::pair<std::int64_t, std::string>> checkpoints() = 0;

  /// What may have to be erased lives beside the record, under the salted hash that stands in the leaf.
  virtual void keep_private(std::string_view hash_hex, std::string_view salt, std::string_view bytes) = 0;
  [[nodiscard]] virtual std::optional<std::string> private_bytes(std::string_view hash_hex) = 0;
  virtual bool erase_private(std::string_view hash_hex) = 0;

  /// Reads everything again: leaf bytes against the tree, sequence, stored nodes, stored checkpoints (signature
  /// by `trusted_vkey`, unless that is empty), and in full depth ids, and documents against a fresh fold. Names
  /// every bad entry it can tell. `progress` counts entries.
  [[nodiscard]] virtual Verification verify(std::string_view trusted_vkey, VerifyDepth depth,
                                            const Progress& progress) = 0;
  /// Derives the documents anew; returns how many differed (each named in `differing`, at most 100).
  virtual std::int64_t rebuild(std::vector<std::string>& differing, const Progress& progress) = 0;
  /// A consistent copy while others write, durable before it gets its name. The target must not exist.
  virtual void backup_to(const std::string& path, const Progress& progress) = 0;
};

/// A fault of the storage or of the system; caught in main and in the dispatcher of the server, nowhere else.
class StorageFault : public std::runtime_error {
 public:
  StorageFault(ErrorCode code, const std::string& message, std::string hint)
      : std::runtime_error(message), code_(code), hint_(std::move(hint)) {}
  [[nodiscard]] ErrorCode code() const { return code_; }
  [[nodiscard]] const std::string& hint() const { return hint_; }

 private:
  ErrorCode code_;
  std::string hint_;
};

/// Makes a new book. Errors: already_exists, file_fault.
[[nodiscard]] Result<std::unique_ptr<Store>> create_sqlite_book(const std::string& path,
                                                                std::string_view origin, Fold fold,
                                                                Clock clock);
/// Opens a book and brings its schema up to date. Errors: not_found, bad_book (not a book), newer_book,
/// file_fault, storage_busy.
[[nodiscard]] Result<std::unique_ptr<Store>> open_sqlite_book(const std::string& path, Fold fold, Clock clock);

}  // namespace fogwright
