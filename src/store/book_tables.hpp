// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "fogwright/book/documents.hpp"
#include "fogwright/book/entry.hpp"
#include "fogwright/book/merkle.hpp"
#include "store/private_records.hpp"

namespace fogwright {

/// Of the complete subtrees only those of 2^8, 2^16, ... leaves are kept; each other one is made of at most 128
/// hashes of the kept level below it, which for the lowest are the leaf hashes beside the entries.
inline constexpr unsigned kept_level_step = 8;

/// The tables of a book over one connection to whatever database holds them: the one place where a store says
/// how each is read and written. A call sees what its connection sees: the open transaction, or the last
/// commit. Writing needs a transaction under the writers' lock. A visitor may call the tables again. All throw
/// StorageFault.
class BookTables {
 public:
  BookTables() = default;
  BookTables(const BookTables&) = delete;
  BookTables& operator=(const BookTables&) = delete;
  virtual ~BookTables() = default;

  /// The last entry.
  struct Tail {
    std::int64_t seq = -1;  ///< -1: there is none
    Hash hash{};            ///< zeros if what is stored is no hash: no leaf has that one
  };
  [[nodiscard]] virtual Tail tail() = 0;
  [[nodiscard]] std::int64_t size() { return tail().seq + 1; }

  struct Row {
    std::int64_t seq;
    std::string_view id, hash, leaf;
  };
  /// Entries [from, to) in order of their numbers, as long as the visitor says true.
  virtual void each_entry(std::int64_t from, std::int64_t to,
                          const std::function<bool(const Row& row)>& visit) = 0;
  [[nodiscard]] virtual std::optional<std::string> leaf(std::int64_t seq) = 0;
  [[nodiscard]] virtual std::optional<std::int64_t> find(const Uuid& id) = 0;
  /// None if there are no entries.
  [[nodiscard]] virtual std::optional<Uuid> largest_id() = 0;
  /// These ids will be asked for next: a store that is far away asks for all of them at once.
  virtual void look_up(std::span<const Uuid> /*ids*/) {}
  virtual void add_entry(const Entry& entry, const Hash& hash, std::string leaf) = 0;

  /// Stored hashes [begin, end) of a kept level in order, level 0 being those beside the entries.
  virtual void each_hash(unsigned level, std::int64_t begin, std::int64_t end,
                         const std::function<void(std::string_view hash)>& visit) = 0;
  /// Those of [begin, end) in a row; none if one is missing or damaged.
  [[nodiscard]] std::optional<std::vector<Hash>> hashes(unsigned level, std::int64_t begin, std::int64_t end);
  [[nodiscard]] std::optional<Hash> leaf_hash(std::int64_t seq);
  /// None if the subtree is not complete, or its parts are missing or damaged.
  [[nodiscard]] std::optional<Hash> node(NodeId id);
  /// Keeps the node if its level is one of those that are kept.
  void add_node(const TreeNode& node);

  /// Nodes of this level and above, as long as the visitor says true.
  virtual void each_node(
      unsigned lowest_level,
      const std::function<bool(std::int64_t level, std::int64_t position, std::string_view hash)>& visit) = 0;
  struct NodeCount {
    std::int64_t count = 0, last = -1;
  };
  [[nodiscard]] virtual NodeCount node_count(unsigned level) = 0;

  [[nodiscard]] virtual MutableDocuments& documents() = 0;
  struct DocumentRow {
    std::string_view kind, key, body;
    bool live;

    friend bool operator==(const DocumentRow&, const DocumentRow&) = default;
  };
  /// All documents in order of the bytes of kind and key.
  virtual void each_document(const std::function<void(const DocumentRow& row)>& visit) = 0;
  virtual void put_document(const DocumentRow& row) = 0;
  virtual void erase_document(std::string_view kind, std::string_view key) = 0;

  using Checkpoints = std::vector<std::pair<std::int64_t, std::string>>;
  [[nodiscard]] virtual Checkpoints checkpoints() = 0;
  [[nodiscard]] virtual std::optional<std::string> checkpoint(std::int64_t size) = 0;
  virtual void add_checkpoint(std::int64_t size, std::string_view note) = 0;
  virtual void extend_checkpoint(std::int64_t size, std::string_view note) = 0;

  /// Hashes of private bytes are raw here, not hex.
  [[nodiscard]] virtual std::optional<PrivateRecord> private_record(std::string_view hash) = 0;
  virtual void add_private(std::string_view hash, std::string_view salt, std::string_view bytes) = 0;
  [[nodiscard]] virtual bool erase_private(std::string_view hash) = 0;
  virtual void each_private(const std::function<void(std::string_view hash, std::string_view salt,
                                                     std::string_view bytes)>& visit) = 0;

 protected:
  virtual void add_kept_node(std::int64_t level, std::int64_t position, const Hash& hash) = 0;
};

}  // namespace fogwright
