// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Where a book is kept: in an SQLite file, or for a fleet in a PostgreSQL database. One narrow interface.
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

/// Where an import comes from.
struct ImportSource {
  std::function<std::optional<std::string_view>()> next;  ///< the next line; it lasts until the call after
  std::int64_t total = 0;                                 ///< about how many lines there are, for the progress
  std::string name;                                       ///< what faults call it
  /// What else has to be written with the entries, in the same transaction; told what the book then is. May be
  /// empty.
  std::function<void(const Head& head)> beside;
};

/// Something that is kept beside the record.
struct PrivateBytes {
  std::string hash_hex;
  std::string_view salt, bytes;  ///< last as long as the visit
};

class Store {
 public:
  Store() = default;
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;
  virtual ~Store() = default;

  [[nodiscard]] virtual std::string origin() const = 0;
  [[nodiscard]] virtual Head head() = 0;

  /// All or nothing. Errors: whatever `decide` refuses with; bad_entry; storage_busy. Storage faults throw
  /// StorageFault.
  virtual Result<std::vector<Receipt>> append(const Decide& decide) = 0;

  /// Takes in an export of this very book: one entry's exact bytes a line, in order. What the book has already
  /// must be there byte for byte; the rest is appended as it is, with the time of receipt that it carries. All
  /// or nothing; returns how many entries were new. Faults: bad_import with "name:line", each line that has
  /// one.
  [[nodiscard]] virtual tl::expected<std::int64_t, Faults> import_from(const ImportSource& source,
                                                                       const Progress& progress) = 0;
  /// The same for a text that is in memory.
  [[nodiscard]] tl::expected<std::int64_t, Faults> import_lines(std::string_view lines, std::string_view file,
                                                                const Progress& progress);

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
  virtual void each_private(const std::function<void(const PrivateBytes& kept)>& visit) = 0;
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

/// Makes a new book in a file. Errors: already_exists, file_fault.
[[nodiscard]] Result<std::unique_ptr<Store>> create_sqlite_book(const std::string& path,
                                                                std::string_view origin, Fold fold,
                                                                Clock clock);
/// Opens a book and brings its schema up to date. Errors: not_found, bad_book (not a book), newer_book,
/// file_fault, storage_busy.
[[nodiscard]] Result<std::unique_ptr<Store>> open_sqlite_book(const std::string& path, Fold fold, Clock clock);

/// Whether this is the address of a book on a server (postgresql://...) and not the path of a file.
[[nodiscard]] bool is_server_address(std::string_view address) noexcept;
/// The address without a password, for output and errors.
[[nodiscard]] std::string shown_address(const std::string& address);
/// Server, port, database and schema of an address as the name of a file, always the same for the same book.
/// Errors: not_understood, file_fault.
[[nodiscard]] Result<std::string> file_name_of(const std::string& address);

/// Makes a new book at an address: a path, or postgresql://USER@HOST/DATABASE. On a server the user becomes its
/// owner, and the roles of `grant_to` may use it. Errors: as above; not_understood for a malformed address,
/// storage_fault for a server that does not answer. `where` never holds a password.
[[nodiscard]] Result<std::unique_ptr<Store>> create_book(const std::string& address, std::string_view origin,
                                                         Fold fold, Clock clock,
                                                         const std::vector<std::string>& grant_to = {});
/// Opens the book at an address.
[[nodiscard]] Result<std::unique_ptr<Store>> open_book(const std::string& address, Fold fold, Clock clock);

/// What a copy was shown to have in common with its source.
struct Transferred {
  Head head;
  std::int64_t checkpoints = 0, private_bytes = 0;
};

/// Copies a book to an address where there is none, or an empty one of the same origin: entries byte for byte,
/// checkpoints, private bytes, in one transaction; documents follow from the entries. Then reads all of the
/// copy again. `progress` counts entries, twice. Faults: already_exists if the target is not empty; bad_book if
/// source or copy do not hold together; those of create_book. Throws StorageFault.
[[nodiscard]] tl::expected<Transferred, Faults> copy_book(Store& from, const std::string& address, Fold fold,
                                                          Clock clock, const Progress& progress,
                                                          const std::vector<std::string>& grant_to = {});

}  // namespace fogwright
