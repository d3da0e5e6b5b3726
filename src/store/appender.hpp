// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <vector>

#include "store/tree_state.hpp"

namespace fogwright {

/// Writes entries one after the other inside a transaction, with the nodes and documents that follow from them.
class Appender {
 public:
  struct Place {
    BookTables& tables;
    const std::string& origin;
    Fold fold;
  };

  Appender(const Place& place, TreeState state, std::int64_t received_ms)
      : place_(place), state_(std::move(state)), received_ms_(received_ms) {}

  /// Refuses what the record format does not allow, and an id that stands for something else (bad_entry;
  /// `where` is the member, and which of several entries it is). An entry that is there already gets its
  /// receipt again. After a refusal the transaction must be rolled back.
  [[nodiscard]] Result<void> add(std::vector<NewEntry> given);

  /// Adds an entry of another copy of this book, byte for byte; false if it is there already. Refuses what is
  /// not the next entry of this book (bad_entry). Precondition: these bytes are this entry, and this is their
  /// leaf hash.
  [[nodiscard]] Result<bool> add_copy(Entry entry, std::string leaf, const Hash& hash);

  [[nodiscard]] bool wrote() const { return wrote_; }
  [[nodiscard]] const TreeState& state() const { return state_; }
  [[nodiscard]] const std::vector<Receipt>& receipts() const { return receipts_; }

 private:
  /// An entry and its bytes, which were made for the number in it.
  struct Made {
    Entry entry;
    Result<std::string> leaf;
    Hash hash{};
  };

  /// The entry of this id, if it is there.
  [[nodiscard]] std::optional<std::int64_t> find(const Uuid& id);
  void encode(Made& made) const;
  void look_up(std::span<const Made> made);
  Result<void> add_one(Made& made);
  Result<void> add_again(Entry& entry, std::int64_t seq);
  Result<void> add_new(Made& made);

  Place place_;
  TreeState state_;
  std::int64_t received_ms_;
  bool wrote_ = false;
  std::vector<Receipt> receipts_;
  std::vector<TreeNode> nodes_;  ///< that the entry just added completes; its memory is used again
};

}  // namespace fogwright
