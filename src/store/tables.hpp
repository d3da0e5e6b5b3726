// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>

#include "fogwright/book/entry.hpp"
#include "fogwright/book/merkle.hpp"
#include "store/sqlite.hpp"

namespace fogwright {

/// Of the complete subtrees only those of 2^8, 2^16, ... leaves are kept; each other one is made of at most 128
/// hashes of the kept level below it, which for the lowest are the leaf hashes beside the entries.
inline constexpr unsigned kept_level_step = 8;

/// Reads the record. Each call sees what the connection sees: its open transaction, or the last commit.
class BookReader {
 public:
  explicit BookReader(const sqlite::Connection& connection);

  [[nodiscard]] std::int64_t size();
  [[nodiscard]] std::optional<std::string> leaf(std::int64_t seq);
  [[nodiscard]] std::optional<Hash> leaf_hash(std::int64_t seq);
  [[nodiscard]] std::optional<std::int64_t> find(const Uuid& id);
  /// None if there are no entries.
  [[nodiscard]] std::optional<Uuid> largest_id();
  /// None if the subtree is not complete, or its parts are missing or damaged.
  [[nodiscard]] std::optional<Hash> node(NodeId id);

 private:
  sqlite::Statement size_, leaf_, leaf_hash_, find_, largest_id_, leaf_hashes_, node_hashes_;
};

/// Writes the record, inside the transaction of its connection.
class BookWriter {
 public:
  explicit BookWriter(const sqlite::Connection& connection);

  void add_entry(const Entry& entry, const Hash& hash, std::string_view leaf);
  /// Keeps the node if its level is one of those that are kept.
  void add_node(const TreeNode& node);

 private:
  sqlite::Statement entry_, node_;
};

/// What has to be known of the record to go on with it.
struct TreeState {
  CompactRange tree;
  Hash last_hash{};  ///< leaf hash of the last entry; zeros if there is none
  std::int64_t last_received_ms = 0;

  [[nodiscard]] std::int64_t size() const { return static_cast<std::int64_t>(tree.size()); }
};

/// Brings a state up to what the tables hold. False if entries that the state knows are gone or are other ones;
/// the state is that of the tables all the same. Throws StorageFault (bad_book) if nodes or the last entry are
/// damaged.
[[nodiscard]] bool catch_up(TreeState& state, BookReader& reader, std::string_view origin);

}  // namespace fogwright
